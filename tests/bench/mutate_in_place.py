"""Changes tried in place, for tests/bench/mutate.py: the program and its tests are loaded once; a
fork puts the changed function, constant or default in place of the old one, forgets what was kept
in memory, and runs tests until one fails.

It does not see what a module made of a constant, nor what a test module computed, while they were
loaded: what lives here is tried again by itself.
"""

import functools
import gc
import linecache
import os
import re
import resource
import signal
import sys
import time
import types

from _pytest.config import hookimpl

MEMORY = 8 << 30
SIMPLE = (int, float, str, tuple, frozenset, dict)  # constants
WHOLE = "of the module itself"  # there is nothing to put in place


def quiet(longest):
    """In a fork: says nothing; ends after so many seconds of a clock or with too much memory."""
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    signal.alarm(longest)
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    nothing = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nothing, 1)
    os.dup2(nothing, 2)


class InPlace:
    """A plugin of pytest: instead of running the tests, tries changes, each in a fork."""

    def __init__(self, tree, changes, choose, keep, longest):
        self.tree, self.changes, self.longest = tree, changes, longest
        self.choose, self.keep = choose, keep
        self.failed, self.sound = "", {}

    @hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session):
        items = {item.nodeid: item for item in session.items}
        every = gc.get_objects()
        self.functions = [one for one in every if isinstance(one, types.FunctionType)]
        kept = [one for one in every if isinstance(one, functools._lru_cache_wrapper)]
        self.kept = [one for one in kept if self._of_tree(one.__wrapped__)]
        self.formulas = [one for one in every if type(one).__name__ == "Formula"]
        del every
        gc.freeze()
        for change in self.changes:
            self._over(change, items)
        return True

    def _over(self, change, items):
        """Try a change, and tell what came of it."""
        began = time.perf_counter()
        tests = [one for one in self.choose(change) if one in items]
        by = self._tried(change, [items[one] for one in tests])
        while by in items and not self._sound(items[by]):  # it fails here without a change too
            del items[by]
            tests = [one for one in tests if one in items]
            by = self._tried(change, [items[one] for one in tests])
        whole = by == WHOLE or not change.file.endswith(".py")
        by = "" if by == WHOLE else by
        self.keep(change, by, len(tests), time.perf_counter() - began, whole)

    def _of_tree(self, function):
        code = getattr(function, "__code__", None)
        return code is not None and code.co_filename.startswith(str(self.tree))

    def _sound(self, item):
        """Whether a test passes where nothing is changed."""
        if item.nodeid not in self.sound:
            self.sound[item.nodeid] = not self._forked(None, [item])
        return self.sound[item.nodeid]

    def _tried(self, change, items):
        """The test that noticed, empty where none did."""
        path = self.tree / change.file
        before = path.read_bytes()
        try:
            path.write_text(change.text, encoding="utf-8")
            return self._forked(change, items)
        finally:
            path.write_bytes(before)

    def _forked(self, change, items):
        told = self.tree.parent / "failed"
        told.write_text("")
        pid = os.fork()
        if pid == 0:
            try:
                self._child(change, items, told)
            finally:
                os._exit(3)
        _, status = os.waitpid(pid, 0)
        if os.WIFSIGNALED(status):
            return "did not end"
        return "did not start" if os.WEXITSTATUS(status) == 3 else told.read_text()

    def _child(self, change, items, told):
        quiet(self.longest)
        if change is not None and change.file.endswith(".py") and not self._put(change):
            told.write_text(WHOLE)
            os._exit(0)
        for one in self.kept:
            one.cache_clear()
        linecache.clearcache()
        for one in self.formulas:
            for name in ("source", "tree"):
                vars(one).pop(name, None)
        for item, following in zip(items, [*items[1:], None], strict=True):
            signal.alarm(self.longest)
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            if self.failed:
                told.write_text(self.failed)
                os._exit(1)
        os._exit(0)

    def _put(self, change):
        """Put the changed functions of a module in place; whether there is one."""
        file = str(self.tree / change.file)
        new = dict(_codes(compile(change.text, file, "exec")))
        found = False
        for one in self.functions:
            code = one.__code__
            if code.co_filename != file:
                continue
            other = new.get((code.co_qualname, code.co_firstlineno))
            if other is not None and other != code and other.co_freevars == code.co_freevars:
                one.__code__, found = other, True
        return found or self._put_constant(change.text, file)

    def _put_constant(self, text, file):
        """Put changed numbers and words of a module in place wherever they were imported, and
        changed defaults of its functions; whether there is one."""
        (module,) = (m for m in [*sys.modules.values()] if getattr(m, "__file__", "") == file)
        made = {"__name__": module.__name__, "__file__": file, "__package__": module.__package__}
        exec(compile(text, file, "exec"), made)
        found = False
        for name, new in made.items():
            old = vars(module).get(name)
            if isinstance(new, SIMPLE) and isinstance(old, SIMPLE) and new != old:
                for one in [*sys.modules.values()]:
                    if vars(one).get(name) is old:
                        setattr(one, name, new)
                        found = True
        new = {one.__code__.co_qualname: one for one in _functions(made)}
        for one in self.functions:
            other = new.get(one.__code__.co_qualname) if one.__code__.co_filename == file else None
            if other is not None and _defaults(other) != _defaults(one):
                one.__defaults__, one.__kwdefaults__ = other.__defaults__, other.__kwdefaults__
                found = True
        return found

    def pytest_runtest_logreport(self, report):
        if report.failed and not self.failed:
            self.failed = report.nodeid


def _functions(made):
    """The functions of a module and of its classes."""
    for one in made.values():
        if isinstance(one, type):
            yield from (f for f in vars(one).values() if isinstance(f, types.FunctionType))
        elif isinstance(one, types.FunctionType):
            yield one


def _defaults(function):
    """Defaults of a function as words, whose objects are made anew with the module."""
    return re.sub(" at 0x[0-9a-f]+", "", repr((function.__defaults__, function.__kwdefaults__)))


def _codes(code):
    """Every function of a compiled module, by its name and line."""
    for one in code.co_consts:
        if isinstance(one, types.CodeType):
            yield (one.co_qualname, one.co_firstlineno), one
            yield from _codes(one)
