"""Entry point of the `outrigger` command and of `python -m outrigger`."""

import gc


def main() -> None:
    """Run the command line. The collector rests while the modules load: they leave no garbage."""
    gc.disable()
    from outrigger.cli.app import run

    gc.freeze()
    gc.enable()
    run()


if __name__ == "__main__":
    main()
