"""How long the site takes to build, beside stock Material on the same Markdown; what is ours in it; an edit; a check.

    python tests/bench/bench_site.py

Both sides of a ratio are measured in turns in one run, in processor time, the best of several, so that other work on the
machine counts little. The wait after an edit is real time: run it on an idle machine. Stock is Material with its own search
and no other plugin. It is measured twice: with no menu given, which is what a folder of pages gets (every page in the menu
of every page), and with our menu of ways in.
Stock converts Markdown, renders the theme, and indexes the search. Ours does that, and reads and checks the records,
computes, draws, and makes the copy to save and the list of files to keep without a signal.
"""

from __future__ import annotations

import compileall
import os
import resource
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parents[2]
SURROUNDINGS = {**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": str(ROOT / "generator")}
STOCK = """\
site_name: Stock
docs_dir: pages
use_directory_urls: false
theme: {name: material}
markdown_extensions: [attr_list, toc]
plugins: [search]
"""
STAGES = """
import time
import mkdocs.commands.build
import tinwright.site.plugin as plugin
from mkdocs.config import load_config
spent = {}
def timed(name, function):
    def run(*values, **named):
        begun = time.process_time()
        try:
            return function(*values, **named)
        finally:
            spent[name] = spent.get(name, 0) + time.process_time() - begun
    return run
for name, stage in (("load", "reading"), ("load_bank", "reading"), ("build_site", "computing and writing Markdown"),
                    ("write_copy", "copy to save"), ("write_worker", "list of files to keep"),
                    ("set_aside", "setting HTML aside")):
    setattr(plugin, name, timed(stage, getattr(plugin, name)))
config = load_config("mkdocs.yml", site_dir=SITE)
config.plugins.on_startup(command="build", dirty=False)
mkdocs.commands.build.build(config)
spent["whole"] = time.process_time()
for stage, seconds in spent.items():
    print(f"{stage}\\t{seconds}")
"""


def say(text: str) -> None:
    sys.stdout.write(f"{text}\n")
    sys.stdout.flush()


TINWRIGHT = ("-c", "from tinwright.cli import main; main()")
MKDOCS = ("-m", "mkdocs")


def run(*command: str, folder: Path) -> float:
    """Run Python to its end and return the processor seconds it took: other work on the machine counts little."""
    begun = _spent()
    subprocess.run([sys.executable, *command], cwd=folder, env=SURROUNDINGS, check=True, stdout=subprocess.DEVNULL)
    return _spent() - begun


def _spent() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def size_of(folder: Path) -> int:
    return sum(file.stat().st_size for file in folder.rglob("*") if file.is_file())


def programme(folder: Path, copies: int) -> Path:
    """The demonstration, with that many further copies of each defect, procedure and term."""
    for name in ("content", "quizzes"):
        shutil.copytree(ROOT / name, folder / name)
    shutil.copy(ROOT / "mkdocs.yml", folder)
    for kind in ("defects", "procedures", "terms"):
        for file in sorted((folder / "content" / "shared" / kind).glob("*.yml")):
            text = file.read_text(encoding="utf-8")
            for number in range(2, copies + 2):
                lines = [line for line in text.split("\n") if not line.startswith("formerly:")]
                more = "\n".join(_renumbered(line, number) for line in lines)
                file.with_name(f"{file.stem}-{number}.yml").write_text(more, encoding="utf-8")
    return folder


def _renumbered(line: str, number: int) -> str:
    start, _, rest = line.partition(": ")
    if start in {"- id", "title", "  title"} and not rest.startswith('"'):
        return f"{start}: {rest}-{number}" if start == "- id" else f"{start}: {rest} {number}"
    return line


def beside_stock(copies: int, times: int) -> None:
    compile_ours()
    with tempfile.TemporaryDirectory() as name:
        folder = programme(Path(name), copies)
        run(*TINWRIGHT, "write", "pages", folder=folder)
        nav = "".join(f"  - {title}: {uri}\n" for title, uri in _menu())
        (folder / "stock.yml").write_text(STOCK + "site_dir: stock\n", encoding="utf-8")
        (folder / "stock-menu.yml").write_text(f"{STOCK}site_dir: stock-menu\nnav:\n{nav}", encoding="utf-8")
        sides = {"site": "mkdocs.yml", "stock": "stock.yml", "stock-menu": "stock-menu.yml"}
        best = dict.fromkeys(sides, float("inf"))
        for _ in range(times):
            for side, settings in sides.items():
                best[side] = min(best[side], run(*MKDOCS, "build", "-q", "-f", settings, folder=folder))
        pages = sum(1 for _ in (folder / "pages").rglob("*.md"))
        say(f"{pages:,} pages, best of {times}, ours beside stock:")
        for side, words in (("stock", "every page in the menu"), ("stock-menu", "our menu of ways in")):
            seconds, size = best["site"] / best[side], size_of(folder / "site") / size_of(folder / side)
            say(f"  {words:24} {seconds:5.2f} of the processor time, {size:5.2f} of the bytes")


def _menu() -> list[tuple[str, str]]:
    sys.path.insert(0, str(ROOT / "generator"))
    from tinwright.site.building import NAVIGATION

    return list(NAVIGATION)


def compile_ours() -> None:
    """Have our code compiled, as it is where it was installed; the libraries' is."""
    compileall.compile_dir(ROOT / "generator", quiet=1)


def shares(times: int) -> None:
    compile_ours()
    runs = []
    with tempfile.TemporaryDirectory() as site:
        command = [sys.executable, "-c", STAGES.replace("SITE", repr(site))]
        for _ in range(times):
            told = subprocess.run(
                command, cwd=ROOT, env=SURROUNDINGS, check=True, capture_output=True, text=True
            ).stdout
            runs.append(
                {stage: float(seconds) for stage, _, seconds in (row.partition("\t") for row in told.splitlines())}
            )
    whole = min(run["whole"] for run in runs)
    say(f"share of the processor time of a build, the start of Python included, the best of {times} runs of each part:")
    for stage in runs[0]:
        if stage != "whole":
            say(f"  {stage:32} {min(run[stage] for run in runs) / whole:6.1%}")
    ours = [run["reading"] + run["computing and writing Markdown"] for run in runs]
    middle = median(own / run["whole"] for own, run in zip(ours, runs, strict=True))
    say(
        f"  {'ours: reading, computing, writing':32} {min(ours) / whole:6.1%}; within one run {middle:.1%} in the middle"
    )
    say("  the rest is MkDocs, the theme, the search")


def edits(times: int) -> None:
    with tempfile.TemporaryDirectory() as name, socket.socket() as free:
        folder = programme(Path(name), 0)
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
        free.close()
        server = subprocess.Popen(
            [sys.executable, "-m", "mkdocs", "serve", "-q", "-a", f"127.0.0.1:{port}"],
            cwd=folder,
            env=SURROUNDINGS,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        address = f"http://127.0.0.1:{port}/defects/droop.html"
        begun = time.perf_counter()
        _until(address, "Droop")
        first = time.perf_counter() - begun
        file = folder / "content" / "shared" / "defects" / "droop.yml"
        text = file.read_text(encoding="utf-8")
        waits = []
        for number in range(times):
            time.sleep(1)
            file.write_text(text.replace("summary: ", f"summary: Zebra{number}z ", 1), encoding="utf-8")
            begun = time.perf_counter()
            _until(address, f"Zebra{number}z")
            waits.append(time.perf_counter() - begun)
        server.terminate()
        server.wait()
    say(f"from an edit to the fresh page: {min(waits):.2f} s at best, {median(waits):.2f} s in the middle")
    say(f"  {median(waits) / first:.2f} of the time to the first page")


def _until(address: str, words: str) -> None:
    end = time.monotonic() + 120
    while time.monotonic() < end:
        try:
            with urllib.request.urlopen(address, timeout=30) as answer:  # noqa: S310 our own server on this machine
                if words in answer.read().decode():
                    return
        except OSError:
            pass
        time.sleep(0.02)
    raise TimeoutError(words)


def check(times: int) -> None:
    compile_ours()
    ours = bare = float("inf")
    for _ in range(times):
        ours = min(ours, run(*TINWRIGHT, "check", folder=ROOT))
        bare = min(bare, run("-c", "pass", folder=ROOT))
    say(f"tinwright check: {ours - bare:.2f} processor seconds beyond the start of Python")


if __name__ == "__main__":
    check(7)
    shares(7)
    edits(7)
    beside_stock(0, 3)
    beside_stock(3, 2)
