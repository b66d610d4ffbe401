"""What a page that cannot wait for the proof says of it: the recorded count."""

from outrigger import __version__
from outrigger.proof.recorded import recorded


def line() -> str:
    """For the cover of a summary."""
    count = recorded()
    return (
        f"Computed by outrigger {__version__}, which reproduces {count.values:,} published values "
        f"of {count.sources} sources: outrigger prove."
    )
