"""What is handed out: made by scripts/release from the program under test, unpacked, and looked at by the tools that will meet it.

mandoc and groff (by man) read the manual pages, bash completes, dpkg-deb unpacks, lintian judges the package by Debian's policy.
"""

import hashlib
import os
import re
import shutil
import subprocess
import tarfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
# Tags of lintian that say nothing about what is in the package: it is not on its way into Debian's own archive.
NOT_FOR_DEBIAN = {"initial-upload-closes-no-bugs"}


def run(*command, **more):
    return subprocess.run([str(part) for part in command], check=True, text=True, stdout=subprocess.PIPE, **more).stdout


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """The folder with what scripts/release made of the program under test."""
    folder = tmp_path_factory.mktemp("made")
    run("scripts/release", "--binary", os.environ["LATCHLINE"], "--into", folder, cwd=ROOT)
    return folder


def the(folder, pattern):
    (one,) = folder.glob(pattern)
    return one


@pytest.fixture(scope="module")
def archive(made, tmp_path_factory):
    folder = tmp_path_factory.mktemp("archive")
    with tarfile.open(the(made, "*.tar.gz")) as tar:
        for member in tar.getmembers():
            assert (member.uid, member.gid) == (0, 0) and not member.uname and not member.gname
            assert member.mode in (0o755, 0o644), member.name
        tar.extractall(folder, filter="data")
    return the(folder, "latchline-*")


@pytest.fixture(scope="module")
def installed(made, tmp_path_factory):
    """The package, unpacked into a root of its own."""
    folder = tmp_path_factory.mktemp("root")
    run("dpkg-deb", "-x", the(made, "*.deb"), folder)
    return folder


def subcommands(program, *words):
    """Every command, with those below it, as its words."""
    names = []
    page = run(program, *words, "--help")
    listed = page.split("\nCommands:\n")[1].split("\n\n")[0] if "\nCommands:\n" in page else ""
    for name in re.findall(r"^  ([a-z][a-z-]*)", listed, re.MULTILINE):
        if name != "help":
            names.append((*words, name))
            names += subcommands(program, *words, name)
    return names


def test_the_archive_is_whole_and_runs_where_it_was_unpacked(archive, tmp_path):
    for file in ["README.md", "CHANGELOG.md", "LICENSE-MIT", "LICENSE-APACHE", "LICENCES-OF-OTHERS.txt", "docs/site-file.md"]:
        assert (archive / file).stat().st_size > 500, file
    for link in re.findall(r"\]\(([^)#:]+)", (archive / "README.md").read_text()):
        assert (archive / link).exists(), f"README.md leads to {link}"
    program = archive / "latchline"
    run(program, "new", "--demo", "demo", cwd=tmp_path)
    assert run(program, "check", "demo/site.toml", cwd=tmp_path).startswith("Quillmere Yard: holds")


def test_every_command_has_a_manual_page_that_reads_without_warnings(archive):
    pages = {page.name for page in (archive / "man/man1").iterdir()}
    commands = subcommands(archive / "latchline")
    assert len(commands) > 25 and ("ask", "lock") in commands
    assert pages == {"latchline.1"} | {f"latchline-{'-'.join(words)}.1" for words in commands}
    for page in sorted((archive / "man/man1").iterdir()):
        assert run("mandoc", "-Tlint", "-Wwarning", page) == "", page.name
        read = subprocess.run(
            ["man", "--warnings", "-l", page],
            env={**os.environ, "LC_ALL": "C.UTF-8", "MANWIDTH": "80", "MAN_KEEP_FORMATTING": ""},
            capture_output=True,
            text=True,
            check=True,
        )
        assert read.stderr == "", page.name
        assert f"{page.stem.upper()}(1)" in read.stdout and "SYNOPSIS" in read.stdout, page.name


def test_the_shell_completes(archive):
    script = archive / "completions/latchline.bash"
    run("bash", "-n", script)
    for typed, wanted in [("latchline che", "check"), ("latchline ask lo", "lock"), ("latchline check --form", "--format")]:
        # What bash does at a tab: it sets the words and calls the function that was named for the command.
        ask = (
            f"source {script}; COMP_WORDS=({typed}); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); "
            f"$(complete -p latchline | sed 's/.*-F \\([^ ]*\\).*/\\1/') latchline "
            '"${COMP_WORDS[COMP_CWORD]}" "${COMP_WORDS[COMP_CWORD - 1]}"; echo "${COMPREPLY[@]}"'
        )
        assert run("bash", "--norc", "-c", ask).split() == [wanted], typed
    # The others are not at hand everywhere; where they are, they read theirs.
    for shell, file in [("zsh", "_latchline"), ("fish", "latchline.fish")]:
        text = (archive / "completions" / file).read_text()
        assert all(name in text for (name, *_) in subcommands(archive / "latchline")), shell
        if shutil.which(shell):
            run(shell, "-n", archive / "completions" / file)


def test_the_package_puts_everything_where_it_should_stand(installed, made):
    share = installed / "usr/share"
    assert os.access(installed / "usr/bin/latchline", os.X_OK)
    for file in [
        "man/man1/latchline.1.gz",
        "man/man1/latchline-ask-lock.1.gz",
        "bash-completion/completions/latchline",
        "zsh/vendor-completions/_latchline",
        "fish/vendor_completions.d/latchline.fish",
        "doc/latchline/copyright",
        "doc/latchline/changelog.gz",
        "doc/latchline/licences-of-others.txt.gz",
    ]:
        assert (share / file).is_file(), file
    fields = dict(
        line.split(": ", 1) for line in run("dpkg-deb", "-f", the(made, "*.deb")).splitlines() if not line.startswith(" ")
    )
    assert fields["Package"] == "latchline" and fields["Architecture"] == "amd64"
    assert re.fullmatch(r"libc6 \(>= 2\.\d+\), libgcc-s1", fields["Depends"])
    program = run(installed / "usr/bin/latchline", "--version").split()
    assert program == ["latchline", fields["Version"]]
    # The libraries that it asks for are of those packages.
    needed = run("objdump", "-p", installed / "usr/bin/latchline")
    needed = set(re.findall(r"NEEDED +(\S+)", needed))
    assert needed <= {"libc.so.6", "libm.so.6", "libgcc_s.so.1", "ld-linux-x86-64.so.2"}, needed


def test_the_package_keeps_the_policy_of_debian(made):
    found = subprocess.run(
        ["lintian", "--allow-root", "--fail-on", "none", "--tag-display-limit", "0", the(made, "*.deb")],
        text=True,
        stdout=subprocess.PIPE,
        check=True,
    ).stdout
    told = [line for line in found.splitlines() if line[:2] in ("E:", "W:") and line.split()[2] not in NOT_FOR_DEBIAN]
    assert told == []


def test_two_runs_give_the_same_bytes_and_the_sums_are_theirs(made, tmp_path):
    run("scripts/release", "--binary", os.environ["LATCHLINE"], "--into", tmp_path, cwd=ROOT, umask=0o077)
    files = sorted(file.name for file in made.iterdir())
    assert len(files) == 3 and files == sorted(file.name for file in tmp_path.iterdir())
    for file in files:
        assert (made / file).read_bytes() == (tmp_path / file).read_bytes(), file
    sums = dict(reversed(line.split("  ")) for line in the(made, "*.sha256").read_text().splitlines())
    for file, own in sums.items():
        assert hashlib.sha256((made / file).read_bytes()).hexdigest() == own


def test_a_program_of_another_version_is_refused(tmp_path):
    other = tmp_path / "latchline"
    other.write_text("#!/bin/sh\necho latchline 0.0.0\n")
    other.chmod(0o755)
    ran = subprocess.run([ROOT / "scripts/release", "--binary", other, "--into", tmp_path], capture_output=True, text=True)
    assert ran.returncode == 2 and "not latchline" in ran.stderr


def test_every_licence_is_allowed_and_named(archive):
    assert run("scripts/licences", "--check", cwd=ROOT) == ""
    named = (archive / "LICENCES-OF-OTHERS.txt").read_text()
    listed = set(re.findall(r"^  (\S+) \S+: .* \[\d+\]", named, re.MULTILINE))
    tree = run("cargo", "tree", "--locked", "-e", "normal,build", "--prefix", "none", "--target", "x86_64-unknown-linux-gnu", cwd=ROOT)
    linked = {line.split()[0] for line in tree.splitlines() if line and not line.startswith("latchline")}
    assert linked - listed == set()
    assert "Liberation" in named and "SIL OPEN FONT LICENSE" in named.upper()


def test_a_licence_that_is_not_allowed_is_told(tmp_path):
    """The expressions are those of SPDX: AND binds closer than OR, "/" is an old OR."""
    from importlib.machinery import SourceFileLoader
    from importlib.util import module_from_spec, spec_from_loader

    loader = SourceFileLoader("licences", str(ROOT / "scripts/licences"))
    licences = module_from_spec(spec_from_loader("licences", loader))
    loader.exec_module(licences)
    for expression in ["MIT", "GPL-3.0 OR MIT", "MIT/GPL-2.0", "(MIT OR GPL-2.0) AND Zlib", "MIT OR MIT AND GPL-2.0"]:
        assert licences.is_allowed(expression), expression
    for expression in ["", "GPL-3.0", "MIT AND GPL-3.0", "(GPL-2.0 OR GPL-3.0) AND MIT", "Apache-2.0 WITH Other-exception"]:
        assert not licences.is_allowed(expression), expression
