"""Entry point of the `outrigger` command and of `python -m outrigger`."""

import gc
import os
import signal
import sys
from contextlib import suppress
from types import FrameType

STOPPED = 130  # by Ctrl-C; as shells say it


def main() -> None:
    """Run the command line. The collector rests while the modules load: they leave no garbage.

    Ctrl-C while they load ends the process on the spot: there is nothing to tidy up yet.
    """
    # no matrix here is worth a second thread, which waits busily: 0.1 s of the processor a command
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    before = signal.signal(signal.SIGINT, _stop)
    gc.disable()
    # first, and not deep in a chain of imports, at whose depth the interpreter may find and let go
    # memory for its frames at every call: 0.03 s
    import numpy.typing  # noqa: F401

    from outrigger.cli.app import app_of, meant, run

    with suppress(Exception):  # what is wrong with the words `run` says
        app_of(meant(sys.argv[1:]))
    gc.freeze()
    gc.enable()
    signal.signal(signal.SIGINT, before)
    run()


def _stop(number: int, frame: FrameType | None) -> None:
    os._exit(STOPPED)


if __name__ == "__main__":
    main()
