"""Studies that several tests ask for alike run once in a process: the sample's reserve at three
widths and in two formats is one study. Commands in processes of their own run everything anew."""

import importlib
import pickle
from collections import OrderedDict
from functools import wraps

from outrigger.verdict.design import Design

STUDIES = (("gaps", "study"), ("sizes", "sizes"), ("reserve", "reserve"), ("card", "card"),
           ("changes", "ways"))  # fmt: skip
MOST = 60  # results of studies are slim, but not nothing


class Memory:
    """Results by what was asked: the study, the case with where it was read, the rest; who hears
    how far it is hears nothing of one that is remembered."""

    def __init__(self):
        self.results, self.on = OrderedDict(), False

    def wrap(self):
        """Remember every study, whoever asks for it by its module."""
        for module, name in STUDIES:
            of = importlib.import_module(f"outrigger.studies.{module}")
            setattr(of, name, self.remembering(getattr(of, name)))

    def remembering(self, study):
        """One study, remembered."""

        @wraps(study)
        def remembered(*given, **named):
            if not self.on:
                return study(*given, **named)
            asked = [_case(one) for one in (*given, *sorted(named.items())) if not _hears(one)]
            key = pickle.dumps((study.__module__, asked))
            if key not in self.results:
                self.results[key] = study(*given, **named)
                if len(self.results) > MOST:
                    self.results.popitem(last=False)
            return self.results[key]

        return remembered


def _case(one):
    """A design by its case, which it is of."""
    return one.case if isinstance(one, Design) else one


def _hears(one):
    """Whether an argument is a function: told of progress, or reading the case with settings."""
    return callable(one) or (isinstance(one, tuple) and one[:1] == ("told",))


MEMORY = Memory()
