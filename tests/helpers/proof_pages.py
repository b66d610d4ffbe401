"""What README, DEVELOPERS.md and the recorded count say of the proof, made from the proof."""

import re
from pathlib import Path

from outrigger.proof import recorded
from outrigger.proof.compared import KINDS, PUBLISHED, of_kind

ROOT = Path(__file__).parents[2]
TABLE = re.compile(r"(<!-- outrigger prove -->\n).*?(\n<!-- end -->)", re.DOTALL)
COUNT = re.compile(r"reproduces [\d,]+ published values of \d+ sources")


def table(proof):
    """A line a group: what is counted, and the sources of what is published."""
    lines = [f"| group | {' | '.join(KINDS)} | published by (values) |", f"|---{'|--:' * 5}|---|"]
    for group, rows in proof.groups:
        counts = [f"{proof.count(kind, rows)[1]:,}" for kind in KINDS]
        named = {}
        for row in of_kind(rows, PUBLISHED):
            named[row.source.name] = named.get(row.source.name, 0) + 1
        listed = "; ".join(f"{name} ({n})" for name, n in sorted(named.items(), key=of_most))
        lines.append(f"| {group.title} | {' | '.join(counts)} | {listed} |")
    return "\n".join(lines)


def of_most(item):
    return -item[1], item[0]


def sentence(proof):
    return f"reproduces {len(proof.reproduced):,} published values of {len(proof.sources)} sources"


def pages(proof):
    """Each file and what it must say."""
    developers, readme = ROOT / "DEVELOPERS.md", ROOT / "README.md"
    count = "# What `outrigger prove` counts; tests/bench/proof_pages.py writes it.\n"
    count += f"values = {len(proof.reproduced)}\nsources = {len(proof.sources)}\n"
    made = table(proof)
    assert COUNT.search(readme.read_text("utf-8")), "README says no count"
    return {
        recorded.FILE: count,
        developers: TABLE.sub(lambda m: f"{m[1]}{made}{m[2]}", developers.read_text("utf-8")),
        readme: COUNT.sub(sentence(proof), readme.read_text("utf-8")),
    }
