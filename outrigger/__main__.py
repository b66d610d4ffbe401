"""Entry point of the `outrigger` command and of `python -m outrigger`."""

import gc
import os
import signal
from types import FrameType

STOPPED = 130  # by Ctrl-C; as shells say it
GRACE_S = 2.0  # for a command to tidy up


def main() -> None:
    """Run the command line. The collector rests while the modules load: they leave no garbage.

    Ctrl-C while they load ends the process on the spot: there is nothing to tidy up yet.
    """
    before = signal.signal(signal.SIGINT, _stop)
    gc.disable()
    from outrigger.cli.app import run

    gc.freeze()
    gc.enable()
    signal.signal(signal.SIGINT, _interrupt if before is signal.default_int_handler else before)
    run()


def _stop(number: int, frame: FrameType | None) -> None:
    os._exit(STOPPED)


def _interrupt(number: int, frame: FrameType | None) -> None:
    """Interrupt the command; one that is raised within a callback gets lost, so that the process
    ends by itself a moment later."""
    from threading import Timer

    last = Timer(GRACE_S, os._exit, (STOPPED,))
    last.daemon = True
    last.start()
    raise KeyboardInterrupt


if __name__ == "__main__":
    main()
