"""Writes what README, DEVELOPERS.md and the recorded count say of the proof: after new data.

python tests/bench/proof_pages.py
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))

from proof_pages import pages

from outrigger.proof.prove import prove

for path, text in pages(prove()).items():
    path.write_text(text, encoding="utf-8")
