"""How an answer is read: several facts in one line, each held to what its key takes."""

import re
from collections.abc import Callable, Mapping
from typing import Annotated, Any

from msgspec import Struct
from pydantic import BaseModel, TypeAdapter, ValidationError

from outrigger.base import quantity
from outrigger.base.errors import InputError
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.sections import SECTIONS
from outrigger.cases.settings import spoken
from outrigger.cases.weather import Drift, Sliding
from outrigger.loads.layers import read_layers
from outrigger.wood import stamps

Given = Mapping[str, Any]  # what the file states by path
Values = dict[str, Any]
INNER = {"snow.drift": Drift, "snow.sliding": Sliding}
YES = {"yes": True, "y": True, "true": True, "no": False, "n": False, "false": False}
LEAST_CLIP_LB = 20.0  # under it, a thousand was cut at its comma


class Fact(Struct, frozen=True):
    """One fact of an answer: what it is called when read back, the keys it sets, how it is read.
    `also`: the question is answered without it; `unit`: of a bare number; `options`: what each of
    its words stands for."""

    name: str
    keys: tuple[str, ...]
    read: Callable[[str, Given], Values]
    also: bool = False
    rest: bool = False  # it takes what is left of the line, commas too
    unit: str = ""
    options: Mapping[str, Any] | None = None


class Question(Struct, frozen=True):
    """One question: `whole` looks first, at the whole answer, and returns None to pass it on;
    `only`: whether it is asked, by what is given."""

    ask: str
    example: str
    where: str
    who: str
    facts: tuple[Fact, ...]
    whole: Callable[[str, Given], Values | None] = lambda text, given: None
    only: Callable[[Given], bool] = lambda given: True
    between: str = ",;"

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key that an answer may set."""
        return tuple(key for fact in self.facts for key in fact.keys)

    def lacking(self, given: Given) -> list[str]:
        """The facts that are not given yet, by name."""
        return [
            fact.name
            for fact in self.facts
            if not (fact.also or any(_stands(key, given) for key in fact.keys))
        ]

    def read(self, text: str, given: Given) -> Values:
        """The values of an answer by path.

        Raises:
            InputError: it cannot be read; what was expected.
        """
        found = self.whole(text, given)
        if found is not None:
            return found
        pieces = self._pieces(text)
        try:
            return self._facts(pieces, given)
        except InputError as error:
            words = _words(text)
            if len(pieces) > 1 or not 1 < len(words) <= len(self.facts):
                raise
            try:
                return self._facts(words, given)
            except InputError:
                raise error from None

    def back(self, given: Given) -> str:
        """What is given, read back: gap 4 in, house finish 1/2 in."""
        said = []
        for fact in self.facts:
            parent = fact.keys[0].rpartition(".")[0]
            if parent in INNER and parent in given:  # the whole table is "none"
                said.append(f"{parent.partition('.')[2]} {_said(given[parent])}")
                continue
            named = [key for key in fact.keys if key == fact.keys[0] or "_source" not in key]
            values = [_said(given[key]) for key in named if key in given]
            if values:
                said.append(" ".join([fact.name, *dict.fromkeys(values)]))
        return ", ".join(dict.fromkeys(said))

    def _pieces(self, text: str) -> list[str]:
        cut = r",(?!\d{3}\s*lb)|;" if "," in self.between else ";"
        pieces = [piece.strip() for piece in re.split(cut, text)]
        if self.facts[-1].rest and len(pieces) > len(self.facts):
            last = len(self.facts) - 1
            pieces = [*pieces[:last], ", ".join(pieces[last:])]
        return pieces

    def _facts(self, pieces: list[str], given: Given) -> Values:
        if len(pieces) > len(self.facts):
            names = ", ".join(fact.name for fact in self.facts)
            raise InputError(f"{len(pieces)} things, but {len(self.facts)} are asked: {names}.")
        found: Values = {}
        for fact, piece in zip(self.facts, pieces, strict=False):
            if piece in ("", "?", "-"):
                continue  # this one is not known
            try:
                found |= fact.read(piece, {**given, **found})
            except InputError as error:
                raise InputError(f'{fact.name} "{piece}": {error}') from None
        return found


def _stands(key: str, given: Given) -> bool:
    """Whether a path is given, or "none" for the table that holds it, snow.drift say."""
    parent = key.rpartition(".")[0]
    return key in given or (parent in INNER and parent in given)


def _said(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return " and ".join(map(str, value)) or "none"
    return spoken(value) if isinstance(value, str) else str(value)


def _words(text: str) -> list[str]:
    """The words of a line, a number with its unit as one."""
    unit = r"(?:\s*(?:in|ft|psf|plf|lb|mph|\"|')\b\.?)?"
    return re.findall(rf"\d+:\d+|D[012]\b|{quantity.NUMBER}{unit}(?=\s|$)|\S+", text)


def held(path: str, value: Any) -> Any:
    """A value, where the key of a path takes it.

    Raises:
        InputError: it does not; why, in the words of the case file.
    """
    table, _, key = path.rpartition(".")
    model: Any = INNER.get(table) or (
        HoldDown if table.startswith("hold_down[") else SECTIONS[table]
    )
    return held_by(model, key, value)


def held_by(model: type[BaseModel], key: str, value: Any) -> Any:
    """A value, where a key of a table takes it.

    Raises:
        InputError: it does not; why, in the words of the case file.
    """
    field = model.model_fields[key]
    annotated: Any = field.annotation
    for one in field.metadata:
        annotated = Annotated[annotated, one]
    try:
        TypeAdapter(annotated).validate_python(value)
    except ValidationError as error:
        reasons = [str(one.get("ctx", {}).get("error", one["msg"])) for one in error.errors()]
        raise InputError(reasons[0]) from None
    return value


def text(name: str, key: str, *, also: bool = False, rest: bool = False) -> Fact:
    """Words as they are."""
    return Fact(name, (key,), lambda piece, given: {key: held(key, piece)}, also, rest)


def amount(name: str, unit: str, *keys: str, also: bool = False) -> Fact:
    """A length or a load; a bare number is of the unit that the question names."""

    def read(piece: str, given: Given) -> Values:
        bare = re.fullmatch(quantity.NUMBER, quantity.tidied(piece))
        value = f"{piece} {unit}" if bare else piece
        value = quantity.NONE if piece.lower() == quantity.NONE else value
        if unit == "lb" and 0 < quantity.read(value, "force") < LEAST_CLIP_LB:
            raise InputError("so little? Write a thousand without a comma, 1200 lb.")
        return {key: held(key, value) for key in keys}

    return Fact(name, keys, read, also, unit=unit)


def number(name: str, key: str, *, whole: bool = False, also: bool = False) -> Fact:
    """A plain number."""

    def read(piece: str, given: Given) -> Values:
        try:
            return {key: held(key, int(piece) if whole else float(piece))}
        except ValueError as error:
            if isinstance(error, InputError):
                raise
            raise InputError("needs a number.") from None

    return Fact(name, (key,), read, also)


def choice(name: str, key: str, options: Mapping[str, Any], *, also: bool = False) -> Fact:
    """One of several words, or the first letters of one, three at least."""

    def read(piece: str, given: Given) -> Values:
        return {key: held(key, one_of(piece, options))}

    return Fact(name, (key,), read, also, options=options)


def one_of(piece: str, options: Mapping[str, Any]) -> Any:
    """What a word stands for, or its first letters; of several words none is left out.

    Raises:
        InputError: none of them, or several.
    """
    plain = quantity.tidied(piece)
    if plain in options:
        return options[plain]
    single = {word: value for word, value in options.items() if " " not in word}
    near = [value for word, value in single.items() if len(plain) > 2 and word.startswith(plain)]
    if near and all(value == near[0] for value in near):
        return near[0]
    raise InputError(f"one of: {', '.join(options)}.")


def species(name: str, key: str) -> Fact:
    """A wood, as stamped."""
    return text(name, key)


def pitch(name: str, key: str) -> Fact:
    """Rise over 12; a bare number is the rise."""

    def read(piece: str, given: Given) -> Values:
        bare = re.fullmatch(r"\d+(\.\d+)?", piece)
        value = "0:12" if piece.lower() == "flat" else f"{piece}:12" if bare else piece
        return {key: held(key, value)}

    return Fact(name, (key,), read)


def dead(name: str, key: str, use: str, slope: str = "") -> Fact:
    """A dead load, psf, or the layers that lie there; `slope`: the key of the roof's pitch."""

    def read(piece: str, given: Given) -> Values:
        load = re.fullmatch(r"[\d.,/\s]+[a-z/]*\.?", piece.lower())
        if load or piece.lower() == quantity.NONE:
            stale = {f"{key}_source": None} if f"{key}_source" in given else {}
            return amount(name, "psf", key).read(piece, given) | stale
        rise = None if slope and slope not in given else 0.0
        if slope in given:
            rise = float(re.match(r"\s*([\d.]+)", str(given[slope]))[1])  # type: ignore[index]
        found = read_layers(piece, use, rise)
        value = f"{found.psf:.2f} psf"
        try:
            held(key, value)
        except InputError as error:
            least = str(error).partition(". ")[0]
            raise InputError(f"{value} in all, {least}: is a layer left out?") from None
        return {key: value, f"{key}_source": found.text}

    return Fact(name, (key, f"{key}_source"), read, unit="psf")


def stamp(line: str, given: Given) -> Values:
    """Size, species, grade in any order, and whether it stays dry: 2x6 DF-L #2 dry.

    Raises:
        InputError: what cannot be read.
    """
    found: Values = {}
    states = {"dry": "dry", "covered": "dry", "wet": "wet"}
    words = re.sub(r"(\d)\s*[xX×]\s*(\d)", r"\1x\2", line.replace(",", " ")).split()
    for word in list(words):
        if word.lower() in states:
            found["outrigger.moisture"] = states[word.lower()]
            words.remove(word)
        elif re.fullmatch(r"\d+(\.\d+)?x\d+(\.\d+)?", word):
            found["outrigger.size"] = held("outrigger.size", word)
            words.remove(word)
    if not words:
        return found
    parts = [(" ".join(words[:i]), " ".join(words[i:])) for i in range(1, len(words) + 1)]
    pairs = [*parts, *((b, a) for a, b in parts if b)]
    reasons = []
    for wood, grade in sorted(pairs, key=lambda pair: not pair[1]):
        try:
            name = stamps.read_species(wood)
        except InputError:
            continue
        try:
            if grade:
                stamps.rows_of_grade(grade, name)
        except InputError as error:
            reasons.append(str(error))
            continue
        found["outrigger.species"] = wood
        return found | ({"outrigger.grade": grade} if grade else {})
    if reasons:
        raise InputError(reasons[0])
    rest = [word for word in words if not re.match(r"#|no\.?$|\d|ss$|select$|stud$", word.lower())]
    held("outrigger.species", " ".join(rest) or " ".join(words))
    raise InputError('size, species and grade as stamped: "2x6 DF-L #2".')
