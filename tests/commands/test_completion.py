"""What a shell offers behind <TAB>, asked as the scripts of bash, zsh, fish and PowerShell ask."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from thorough import in_turn

EXAMPLES = Path(__file__).parents[2] / "examples"


def asked(process, line, shell="zsh"):
    """The words offered for the last one of a line."""
    name = {"_OUTRIGGER_COMPLETE": f"complete_{shell}"}
    if shell == "bash":  # which breaks words at the equals sign
        words = line.replace("=", " = ")
        count = len(words.split()) - (0 if words.endswith(" ") and not line.endswith("=") else 1)
        name |= {"COMP_WORDS": words, "COMP_CWORD": str(count)}
    elif shell == "powershell":
        last = "" if line.endswith(" ") else line.split()[-1]
        name |= {"_TYPER_COMPLETE_ARGS": line, "_TYPER_COMPLETE_WORD_TO_COMPLETE": last}
    else:
        name |= {"_TYPER_COMPLETE_ARGS": line, "_TYPER_COMPLETE_FISH_ACTION": "get-args"}
    done = process(folder=EXAMPLES, **name)
    assert done.stderr == ""
    found = done.stdout.splitlines()
    if shell == "zsh":
        found = [one.removeprefix("_arguments '*: :((").removesuffix("))'") for one in found]
        found = [one.partition('":"')[0].strip('"') for one in found]
    if shell == "powershell":
        found = [one.partition(":::")[0] for one in found]
    return [one.partition("\t")[0] for one in found if one]


BEGUN = [
    ("outrigger ch", "check"),
    ("outrigger check pass", "passes.toml"),
    ("outrigger check passes.toml gap.wi", "gap.width="),
    ("outrigger check passes.toml hold_down[back].rated_u", "hold_down[back].rated_uplift="),
]


# keys by those that put a blank behind what they offer
@pytest.mark.parametrize(("shell", "begun"), in_turn(["fish", "powershell", "bash", "zsh"], BEGUN))
def test_commands_files_and_keys(process, shell, begun):
    line, offered = begun
    found = asked(process, line, shell)
    if offered.endswith("=") and shell in ("bash", "zsh"):  # which put a blank behind one alone
        assert found.pop() == f"{offered}..."
    assert found == [offered]


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("outrigger check passes.toml species=SP", ["species=SPF", "species=SPFs"]),
        ("outrigger check passes.toml basis.loads=", ["basis.loads=7-16", "basis.loads=7-22"]),
        ("outrigger check passes.toml outrigger.moisture=",
         ["outrigger.moisture=dry", "outrigger.moisture=wet"]),
        ("outrigger check passes.toml outrigger.incised=t", ["outrigger.incised=true"]),
        ("outrigger check passes.toml size=2x1",
         ["size=2x10", "size=2x12", "size=2x14", "size=2x16"]),
        ("outrigger check passes.toml hold_down[edge].at=e", ["hold_down[edge].at=edge"]),
        ("outrigger lumber SPFs", ["SPFs"]),
        ("outrigger check passes.toml nothing=", []),
    ],
)  # fmt: skip
def test_values(process, line, offered):
    assert asked(process, line, "fish") == offered


def test_grades_of_the_species_set_or_of_the_file(process):
    """Spruce-Pine-Fir prints No. 1 and No. 2 in one row; Douglas Fir-Larch has No. 1 & Btr."""
    of_file = asked(process, "outrigger check passes.toml grade=No", "fish")
    assert "grade=No. 1 & Btr" in of_file and "grade=No. 1/No. 2" not in of_file
    of_setting = asked(process, "outrigger check passes.toml species=SPF grade=No", "fish")
    assert "grade=No. 1/No. 2" in of_setting and "grade=No. 1 & Btr" not in of_setting
    assert "No. 2" in asked(process, "outrigger lumber HF No", "fish")


def test_bash_gets_the_value_alone_its_blanks_marked(process):
    """It puts what it gets behind the equals sign as it stands."""
    assert asked(process, "outrigger check passes.toml basis.loads=", "bash") == ["7-16", "7-22"]
    assert "No.\\ 2" in asked(process, "outrigger check passes.toml grade=No", "bash")


def test_powershell_is_offered_no_value_with_a_blank(process):
    """It would stand there in two words."""
    assert asked(process, "outrigger check passes.toml grade=S", "powershell") == [
        "grade=Stud",
        "grade=Standard",
    ]


@pytest.mark.parametrize("shell", [one for one in ("bash", "zsh", "fish") if shutil.which(one)])
def test_the_script_of_the_shell_that_asks(shell):
    """The shell is found by the process, whatever it was that started the tests."""
    asked = f"{sys.executable} -m outrigger --show-completion; exit"  # not in place of the shell
    done = subprocess.run([shell, "-c", asked], capture_output=True, text=True, check=True)
    assert done.stderr == ""
    assert "_OUTRIGGER_COMPLETE" in done.stdout and "outrigger" in done.stdout


def test_a_command_builds_none_of_it(process):
    """`check` imports nothing of it, and has no option for it."""
    assert "completion" not in process("--help").stdout
