"""What DEVELOPERS.md shows is the code as it stands: its excerpts, its names, its map."""

import ast
import importlib
import re
import textwrap

import pytest
from test_package import ORDER, PACKAGE, ROOT

TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
EXCERPTS = re.findall(r"<!-- (\S+) (\w+) -->\n +```python\n(.*?)\n +```", TEXT, re.DOTALL)
NAMES = sorted(
    {
        (module, name.removesuffix("py"))
        for module, name in re.findall(r"`([a-z_]+(?:/[a-z_]+)+)(?:\.([\w.]+))?`", TEXT)
        if module.partition("/")[0] in ORDER
    }
)


def source_of(path: str, name: str) -> str:
    """The text of a function or class of a file, its decorators too."""
    text = (ROOT / path).read_text(encoding="utf-8")
    (node,) = (n for n in ast.parse(text).body if getattr(n, "name", "") == name)
    first = min(one.lineno for one in (node, *node.decorator_list))
    return "\n".join(text.splitlines()[first - 1 : node.end_lineno])


@pytest.mark.parametrize(("path", "name", "shown"), EXCERPTS, ids=lambda x: str(x)[:40])
def test_an_excerpt_is_the_code(path, name, shown):
    assert textwrap.dedent(shown) == source_of(path, name)


def test_there_are_excerpts_and_names():
    assert len(EXCERPTS) >= 4 and len(NAMES) >= 20


@pytest.mark.parametrize(("module", "name"), NAMES, ids=lambda x: str(x))
def test_a_named_place_exists(module, name):
    """`folder/module` is a file or folder of the package; `folder/module.name` is in it."""
    place = PACKAGE / module
    assert place.is_dir() or place.with_suffix(".py").exists()
    found = importlib.import_module("outrigger." + module.replace("/", "."))
    for part in filter(None, name.split(".")):
        found = getattr(found, part)


def test_the_map_lists_every_folder_in_its_order():
    listed = re.findall(r"^\| `(\w+)/` \|", TEXT, re.MULTILINE)
    folders = [one for one in ORDER if (PACKAGE / one).is_dir()]
    assert listed == folders


def test_every_example_of_the_map_is_there():
    for folder, examples in re.findall(r"^\| `(\w+)/` \|.*\| ([^|]*) \|$", TEXT, re.MULTILINE):
        for name in re.findall(r"`([\w/]+)(?:\.\w+)?`", examples):
            assert (PACKAGE / folder / f"{name}.py").exists(), f"{folder}/{name}"
