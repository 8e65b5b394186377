"""The office page and the files of its folder: what is changed here is written there, what is changed there is taken in.

The oracle is the file system, read and written by another program than Latchline while it runs, and what must follow by hand.
"""

import contextlib
import hashlib
import html
import json
import os
import pathlib
import re
import signal
import subprocess
import time
import tomllib
import urllib.error
import urllib.request

import pytest

LATCHLINE = os.environ["LATCHLINE"]


class Office:
    """A running office page on a folder."""

    def __init__(self, folder: pathlib.Path):
        command = [LATCHLINE, "serve", str(folder), "--port", "0", "--no-browser"]
        self.server = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        line = self.server.stdout.readline()
        found = re.search(r"http://\S+/", line)
        if not found:
            self.server.wait(timeout=20)
            raise RuntimeError(self.server.stderr.read())
        self.address = found.group()

    def get(self, path: str) -> str:
        with urllib.request.urlopen(self.address + path, timeout=60) as answer:
            return answer.read().decode()

    def post(self, path: str, body: dict) -> dict:
        token = re.search(r'name="latchline-token" content="([^"]+)"', self.get("questions")).group(1)
        headers = {"x-latchline-token": token, "content-type": "application/json"}
        request = urllib.request.Request(self.address + path, json.dumps(body).encode(), headers)
        with urllib.request.urlopen(request, timeout=60) as answer:
            return json.load(answer)

    def revision(self) -> int:
        return int(re.search(r'data-revision="(\d+)"', self.get("sites/house")).group(1))

    def edit(self, change: dict, base: int | None = None) -> int:
        base = self.revision() if base is None else base
        body = {"id": os.urandom(8).hex(), "client": "check", "base": base, "change": change}
        return self.post("sites/house/edit", body)["revision"]

    def end(self, how=signal.SIGINT):
        self.server.send_signal(how)
        self.server.wait(timeout=30)


@contextlib.contextmanager
def office(folder):
    running = Office(folder)
    try:
        yield running
    finally:
        if running.server.poll() is None:
            running.end()


@pytest.fixture
def folder(tmp_path):
    subprocess.run([LATCHLINE, "new", str(tmp_path / "house.toml")], check=True, capture_output=True)
    return tmp_path


def run_of(folder, run):
    return tomllib.loads((folder / "house.toml").read_text(encoding="utf-8"))["runs"][run]


def first_run(folder):
    runs = tomllib.loads((folder / "house.toml").read_text(encoding="utf-8"))["runs"]
    return next(name for name, run in runs.items() if "length" in run)


def until(what):
    """Waits for something that must come: the folder is looked at every second."""
    for _ in range(200):
        if what():
            return
        time.sleep(0.1)
    raise AssertionError("it did not come")


def test_an_edit_is_in_the_file_when_it_is_answered(folder):
    run = first_run(folder)
    with office(folder) as page:
        page.edit({"kind": "lengths", "run": run, "lengths": "7.5"})
        assert run_of(folder, run)["length"] == "7.5 m"
        page.post("sites/house/undo", {"id": "u1", "client": "check"})
        assert run_of(folder, run)["length"] != "7.5 m"


def test_what_another_program_saves_is_taken_in_and_merged(folder):
    run, path = first_run(folder), folder / "house.toml"
    with office(folder) as page:
        before = page.edit({"kind": "lengths", "run": run, "lengths": "7.5"})
        text = path.read_text(encoding="utf-8")
        title = re.search(r'^title = "(.*)"$', text, re.M).group(1)
        path.write_text(text.replace(f'title = "{title}"', 'title = "Saved by an editor"'), encoding="utf-8")
        until(lambda: "Saved by an editor" in page.get("sites/house"))
        assert page.revision() == before + 1
        # What was changed here is still there.
        assert run_of(folder, run)["length"] == "7.5 m"
        assert "changed by another program" in page.get("sites/house/history")


def test_what_was_saved_while_it_did_not_run_is_taken_in(folder):
    path = folder / "house.toml"
    with office(folder) as page:
        first = page.revision()
    text = path.read_text(encoding="utf-8")
    path.write_text(text + "\n# a remark\n", encoding="utf-8")
    with office(folder) as page:
        assert page.revision() == first + 1
        assert "# a remark" in path.read_text(encoding="utf-8")


def test_an_edit_that_meets_a_file_saved_meanwhile(folder):
    """Both change one value while the page is not looking: the file stays, the edit is kept, and either can be taken."""
    run, path = first_run(folder), folder / "house.toml"
    with office(folder) as page:
        base = page.revision()
        stood = run_of(folder, run)["length"]
        saved = path.read_text(encoding="utf-8").replace(f'"{stood}"', '"33 m"', 1)
        # Unreadable as a text: left alone and said, and edits go on.
        path.write_bytes(b"\xff\xfe" + saved.encode())
        page.edit({"kind": "lengths", "run": run, "lengths": "7.5"}, base)
        assert path.read_bytes().startswith(b"\xff\xfe")
        assert "not kept up to date" in page.get("sites/house")
        # Saved again, readable, with another value where this page changed one too.
        path.write_text(saved, encoding="utf-8")
        until(lambda: "data-pass-over" in page.get("sites/house/history"))
        assert run_of(folder, run)["length"] == "33 m"
        aside = int(re.search(r'data-pass-over="(\d+)"', page.get("sites/house/history")).group(1))
        page.post("sites/house/pass-over", {"aside": aside})
        assert run_of(folder, run)["length"] == "7.5 m"
        # What the file said is still there, and can be brought back.
        page.edit({"kind": "bring-back", "number": aside})
        assert run_of(folder, run)["length"] == "33 m"


def test_one_program_a_folder_and_a_killed_one_is_put_right(folder):
    run = first_run(folder)
    with office(folder) as page:
        refused = subprocess.run(
            [LATCHLINE, "serve", str(folder), "--port", "0", "--no-browser"], capture_output=True, text=True, timeout=60
        )
        assert refused.returncode == 2 and f"process {page.server.pid}" in refused.stderr
        number = page.edit({"kind": "lengths", "run": run, "lengths": "7.5"})
        page.end(signal.SIGKILL)
    with office(folder) as page:
        assert page.revision() == number
        assert run_of(folder, run)["length"] == "7.5 m"


@pytest.mark.parametrize("total, cable", [(25, "pair-0.8"), (60, "pair-0.5"), (140, "flex-1.5")])
def test_the_page_and_the_command_say_the_same_of_one_run(folder, total, cable):
    """The same question, sentence and figure: what `reach --total` prints is what the page of questions shows."""
    asked = [LATCHLINE, "reach", "--total", str(total), "--cable", cable, "--format", "json"]
    answer = json.loads(subprocess.run(asked, check=False, capture_output=True, text=True).stdout)
    with office(folder) as running:
        page = html.unescape(running.get(f"questions?cable={cable}&total={total}"))
    sentence = re.search(r"<h1 class=\"sentence[^>]*>([^<]+)</h1>", page).group(1)
    assert sentence == answer["says"][0]
    assert str(answer["carried"][0]["stations"]) in sentence
    # How another lock is named on the command line is said there alone.
    for line in answer["says"][1:]:
        assert "--lock" in line or line in page


@pytest.mark.parametrize(
    "asked, address",
    [
        ("ask battery 12 --hours 8", "questions/battery?stations=12&hours=8"),
        ("ask battery 30", "questions/battery?stations=30&hours="),
        ("ask battery 90 --hours 100", "questions/battery?stations=90&hours=100"),
        (
            "ask mix ostrel-v4=12 ostrel-v7x=6",
            "questions/mix?family=ostrel-48&n.ostrel-v4=12&n.ostrel-v7x=6",
        ),
        (
            "ask mix ostrel-v4=80 ostrel-v7x=60 --supply ostrel-ps-120b",
            "questions/mix?n.ostrel-v4=80&n.ostrel-v7x=60&supply=ostrel-ps-120b",
        ),
        (
            "reach --total 45 --cable pair-0.5 --station ostrel-v4 --supply ostrel-ps-120b",
            "questions?station=ostrel-v4&cable=pair-0.5&total=45&supply=ostrel-ps-120b",
        ),
        # The page has a field for the station, which shows the main one; on the command line it is said.
        ("ask switches 27:1 --building 1", "questions/switches?dwelling=27&building=1"),
        ("ask switches 4711", "questions/switches?dwelling=4711"),
    ],
)
def test_the_page_and_the_command_say_the_same(folder, asked, address):
    """Every sentence of the command stands on the page; the first is the one to say."""
    asked = [LATCHLINE, *asked.split(), "--format", "json"]
    answer = json.loads(subprocess.run(asked, check=False, capture_output=True, text=True).stdout)
    with office(folder) as running:
        page = html.unescape(running.get(address))
    heading = re.search(r"<h1 class=\"sentence( is-error)?\">([^<]+)</h1>", page)
    assert heading.group(2) == answer["says"][0]
    assert (heading.group(1) is None) == answer["works"]
    # How another lock or model is named on the command line is said there alone: the page has a field that shows which is taken.
    for line in answer["says"][1:]:
        assert "--lock" in line or "Name yours with --station" in line or line in page


def test_stations_so_far_apart_are_those_of_the_table(folder):
    """The page's own question with a stated spacing against the table of `reach`, whose chains are cut from another site."""
    asked = [LATCHLINE, "reach", "--cable", "pair-0.8", "--spacing", "12", "--feeder", "12", "--format", "json"]
    answer = json.loads(subprocess.run(asked, check=True, capture_output=True, text=True).stdout)
    stations = answer["cables"][0]["chains"][0]["stations"]
    with office(folder) as running:
        address = f"questions?by=spacing&spacing=12&cable=pair-0.8&supply={answer['supply']}"
        page = html.unescape(running.get(address))
    sentence = re.search(r"<h1 class=\"sentence[^>]*>([^<]+)</h1>", page).group(1)
    assert sentence.startswith(f"{stations} {answer['station']}, 12 m from one to the next and {12 * stations} m in all")


def test_a_record_of_questions_outlives_the_page(folder):
    """What was answered is kept with who asked, on what it rests and the catalogue; it is found by its words after a restart, and deleted."""
    with office(folder) as running:
        asked = {"id": "first", "address": "/questions/battery?stations=12&hours=8", "who": "Ökonomierat <b>"}
        kept = running.post("questions/keep", asked)
        assert running.post("questions/keep", asked) == kept, "sent again, kept once"
        other = running.post("questions/keep", {"id": "second", "address": "/questions/lock", "who": ""})
        page = running.get("questions/battery?stations=12&hours=8")
        lines = re.findall(r"<(?:h1 class=\"sentence[^>]*|p class=\"quiet\")>([^<]+)</", page.split('id="answer"')[1].split("data-copy-link")[0])
    with office(folder) as running:
        found = running.get("questions/record?words=%C3%B6konomierat+battery")
        assert f"/questions/record/{kept['number']}\"" in found and "Ökonomierat &lt;b&gt;" in found
        assert f"/questions/record/{other['number']}\"" not in found
        half = running.get(kept["record"].lstrip("/"))
        for line in lines:
            assert line in half
        name = hashlib.sha256(subprocess.run([LATCHLINE, "catalogue", "--whole"], check=True, capture_output=True).stdout).hexdigest()
        assert name in half
        assert "goes when it ends" not in found
        running.post("questions/record/delete", {"number": kept["number"]})
        assert "konomierat" not in running.get("questions/record")
        with pytest.raises(urllib.error.HTTPError, match="404"):
            running.get(kept["record"].lstrip("/"))
        with pytest.raises(urllib.error.HTTPError, match="404"):
            running.post("questions/keep", {"id": "third", "address": "/sites/house", "who": ""})
        with pytest.raises(urllib.error.HTTPError, match="404"):
            running.post("questions/keep", {"id": "third", "address": "http://elsewhere.example/questions", "who": ""})


def test_the_page_and_the_command_say_the_same_of_a_lock(folder):
    asked = [LATCHLINE, "ask", "lock", "strike-12", "--length", "35", "--cable", "flex-0.75", "--format", "json"]
    answer = json.loads(subprocess.run(asked, check=False, capture_output=True, text=True).stdout)
    with office(folder) as running:
        page = html.unescape(running.get("questions/lock?lock=strike-12&cable=flex-0.75&length=35"))
    for line in answer["says"]:
        assert line in page
