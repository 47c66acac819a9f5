#!/usr/bin/env python3
"""Changes the sources a little, again and again, and asks whether a test notices.

    tests/mutation/campaign.py [--seed N] [--count N] [--rooms REGEX] [--again]
    tests/mutation/campaign.py --table

Each change is drawn by the seed, made in a copy of the tree (build/mutation/tree), built, and run
against the tests of its own room. What came of it is a line of build/mutation/results.jsonl; a change
that is there already is not tried again, so that a campaign goes on where it stopped. `--again` tries
the survivors once more, against all tests of their layer: pages, for instance, are held by the tests of
whole sets of sheets. Exit code 0 when the campaign reached its count.

A change that does not compile is not counted. One that makes a test fail, crash or hang is killed.
Survivors that were read and found to change no behaviour stand in tests/mutation/judged.txt, with the
reason; the table leaves them out of the share.
"""

import argparse
import collections
import hashlib
import json
import os
import pathlib
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
WORK = ROOT / "build" / "mutation"
TREE = WORK / "tree"
RESULTS = WORK / "results.jsonl"
JUDGED = ROOT / "tests" / "mutation" / "judged.txt"

# A change under which half of the tests take more processor time than this is taken to hang. Time by
# the clock would depend on what else the machine does.
TEST_SECONDS = 400

# The rooms of export/ that hold rules which safety rests on: rounding, words of lines, cautions.
EXPORT_ROOMS = ("drawing", "wording", "templates")

# (name, pattern, replacement). A pattern is looked for in code, not in comments or texts.
CHANGES = [
    ("border", r"(?<=\s)<(?=\s)", "<="),
    ("border", r"(?<=\s)<=(?=\s)", "<"),
    ("border", r"(?<=\s)>(?=\s)", ">="),
    ("border", r"(?<=\s)>=(?=\s)", ">"),
    ("side", r"(?<=\s)<=?(?=\s)", ">"),
    ("side", r"(?<=\s)>=?(?=\s)", "<"),
    ("equal", r"(?<=\s)==(?=\s)", "!="),
    ("equal", r"(?<=\s)!=(?=\s)", "=="),
    ("sign", r"(?<=[\w)\]] )\+(?= )", "-"),
    ("sign", r"(?<=[\w)\]] )-(?= )", "+"),
    ("product", r"(?<=[\w)\]] )\*(?= [\w(])", "/"),
    ("product", r"(?<=[\w)\]] )/(?= [\w(])", "*"),
    ("logic", r"&&", "||"),
    ("logic", r"\|\|", "&&"),
    ("extreme", r"\bstd::min\b", "std::max"),
    ("extreme", r"\bstd::max\b", "std::min"),
    ("not", r"(?<=[( ])!(?=\w)", ""),
    ("error", r"\bSeverity::error\b", "Severity::caution"),
    ("number", r"(?<![\w.])\d+\.\d+(?![\w.])", lambda m: f"{float(m.group()) * 1.3 + 0.01:.6g}"),
    ("number", r"(?<![\w.\[{<])[1-9]\d*(?![\w.\]}>'])", lambda m: str(int(m.group()) + 1)),
    ("deleted", r"(?m)^ +(?:\w+(?:\.|->))*(?:push_back|insert|emplace_back|add)\(.*\);$", ";"),
    ("deleted", r"(?m)^ +if \(.*\) return .*;$", ";"),
]


def code_only(text):
    """The text with comments and literals blanked, so that places stay the same."""
    pattern = re.compile(
        r"//[^\n]*|/\*.*?\*/|R\"\((?:.|\n)*?\)\"|\"(?:\\.|[^\"\\\n])*\"|'(?:\\.|[^'\\\n])'"
        r"|^\s*#[^\n]*|template <[^>]*>|std::\w+<[^;(){}]*?>(?=[\s&*({])",
        re.DOTALL | re.MULTILINE,
    )
    return pattern.sub(lambda m: re.sub(r"[^\n]", " ", m.group()), text)


def sources(rooms):
    files = [p for p in sorted((ROOT / "geometry").glob("*/*.cpp")) if "_cgal" not in p.name]
    for room in EXPORT_ROOMS:
        files += sorted((ROOT / "export" / room).glob("*.cpp"))
    return [f for f in files if re.search(rooms, str(f.relative_to(ROOT).parent))]


class Mutant:
    def __init__(self, file, kind, begin, end, new, text):
        self.file = file
        self.kind = kind
        self.begin, self.end, self.new = begin, end, new
        self.line = text.count("\n", 0, begin) + 1
        start = text.rfind("\n", 0, begin) + 1
        stop = text.find("\n", end)
        before = text[start:stop].strip()
        after = (text[start:begin] + new + text[end:stop]).strip()
        self.before, self.after = before, after
        nth = text[:start].count(before)
        self.key = hashlib.sha256(f"{file}\n{before}\n{after}\n{nth}".encode()).hexdigest()[:12]

    @property
    def room(self):
        return "/".join(self.file.split("/")[:2])


def all_mutants(rooms):
    found = []
    for path in sources(rooms):
        text = path.read_text()
        code = code_only(text)
        name = str(path.relative_to(ROOT))
        for kind, pattern, new in CHANGES:
            for m in re.finditer(pattern, code):
                made = new(m) if callable(new) else new
                found.append(Mutant(name, kind, m.start(), m.end(), made, text))
    return found


def drawn(rooms, seed, count):
    """A list of changes, every file as likely as its share of places, in the seed's order."""
    places = all_mutants(rooms)
    random.Random(seed).shuffle(places)
    return places if count is None else places[: 4 * count]


def run(command, timeout, cwd=TREE):
    try:
        done = subprocess.run(command, cwd=cwd, timeout=timeout, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL)
        return done.returncode, done.stdout.decode(errors="replace")
    except subprocess.TimeoutExpired:
        return None, "took too long"


def suites(room):
    """The gtest filter of a room's tests; the long ones are left out."""
    names = set()
    for test in (ROOT / "tests" / room).glob("*_test.cpp"):
        text = test.read_text()
        names |= set(re.findall(r"^(?:TEST|TEST_F|TYPED_TEST)\((\w+),", text, re.M))
        names |= {f"*/{n}" for n in re.findall(r"^TEST_P\((\w+),", text, re.M)}
        names |= {f"{n}/*" for n in re.findall(r"^TYPED_TEST\((\w+),", text, re.M)}
    names = sorted(n for n in names if not n.startswith("Long"))
    return ":".join(f"{n}.*" for n in names) + ":-Long*"


def prepare():
    """A copy of the tree as it is, built."""
    TREE.mkdir(parents=True, exist_ok=True)
    listed = subprocess.check_output(["git", "-c", "safe.directory=*", "ls-files", "-co",
                                      "--exclude-standard"], cwd=ROOT, text=True).split("\n")
    for name in filter(None, listed):
        source, target = ROOT / name, TREE / name
        if not source.is_file():
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        if not target.exists() or target.read_bytes() != source.read_bytes():
            shutil.copyfile(source, target)
    code, said = run(["cmake", "-G", "Ninja", "-S", ".", "-B", "build", "-DCMAKE_BUILD_TYPE=Release",
                      "-DSHANKLINE_TESTS=ON", "-DSHANKLINE_EXACT_TESTS=OFF",
                      "-DSHANKLINE_PRECOMPILED=ON", "-DCMAKE_CXX_FLAGS=-w",
                      "-DCMAKE_CXX_FLAGS_RELEASE=-O1 -DNDEBUG"], 1800)
    if code != 0:
        sys.exit(said)
    code, said = run(["cmake", "--build", "build", "--target", "geometry_tests", "export_tests"], 7200)
    if code != 0:
        sys.exit(said[-4000:])


def judged_by_tests(target, filter):
    """Runs the tests in two halves at a time, and ends both when one test fails."""
    halves = []
    for half in range(2):
        out = open(WORK / f"half{half}.txt", "w+")
        halves.append((out, subprocess.Popen(
            [f"build/tests/{target}", "--gtest_brief=1", "--gtest_fail_fast", f"--gtest_filter={filter}"],
            cwd=TREE, stdout=out, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL,
            env={**os.environ, "GTEST_TOTAL_SHARDS": "2", "GTEST_SHARD_INDEX": str(half)},
            preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (TEST_SECONDS, TEST_SECONDS)))))
    while True:
        codes = [process.poll() for _, process in halves]
        if None not in codes or any(codes):
            break
        time.sleep(0.1)
    said = ""
    for out, process in halves:
        process.kill()
        process.wait()
        out.seek(0)
        said += out.read()
        out.close()
    if codes == [0, 0]:
        return "survived", ""
    failed = re.search(r"\[  FAILED  \] (\S+)", said)
    return "killed", failed.group(1) if failed else "hung" if -signal.SIGKILL in codes else "crashed"


def tried(mutant, filter):
    path = TREE / mutant.file
    whole = path.read_text()
    layer = mutant.file.split("/")[0]
    target = f"{layer}_tests"
    try:
        path.write_text(whole[: mutant.begin] + mutant.new + whole[mutant.end :])
        code, said = run(["cmake", "--build", "build", "--target", target], 3600)
        if code != 0:
            return "no program", ""
        return judged_by_tests(target, filter)
    finally:
        path.write_text(whole)


def results():
    found = {}
    if RESULTS.exists():
        for line in RESULTS.read_text().splitlines():
            row = json.loads(line)
            found[row["key"]] = row
    return found


def judged():
    """Lines "KEY  reason" of survivors that change no behaviour."""
    found = {}
    if JUDGED.exists():
        for line in JUDGED.read_text().splitlines():
            if line and not line.startswith("#"):
                key, reason = line.split(maxsplit=1)
                found[key] = reason
    return found


def table():
    known, same = results(), judged()
    counts = collections.defaultdict(collections.Counter)
    for row in known.values():
        if row["result"] == "no program":
            continue
        result = "same" if row["result"] == "survived" and row["key"] in same else row["result"]
        for room in (row["room"], "all"):
            counts[room][result] += 1
    print("| room | changes | killed | survived | change nothing | share killed |")
    print("|---|---|---|---|---|---|")
    for room in sorted(counts, key=lambda r: (r == "all", r)):
        c = counts[room]
        effective = c["killed"] + c["survived"]
        share = 100 * c["killed"] / effective if effective else 100
        print(f"| {room} | {sum(c.values())} | {c['killed']} | {c['survived']} | {c['same']} "
              f"| {share:.0f} % |")
    for row in sorted(known.values(), key=lambda r: (r["file"], r["line"])):
        if row["result"] == "survived" and row["key"] not in same:
            print(f"\n{row['key']} {row['file']}:{row['line']} ({row['kind']})\n"
                  f"  - {row['before']}\n  + {row['after']}")


def campaign(options):
    prepare()
    WORK.mkdir(parents=True, exist_ok=True)
    known = results()
    counted = 0
    # What is tried again was drawn before, perhaps from a tree that had other places.
    places = (all_mutants(options.rooms) if options.again
              else drawn(options.rooms, options.seed, options.count))
    for mutant in places:
        if counted >= options.count and not options.again:
            return
        old = known.get(mutant.key)
        over = options.again and old and old["result"] == "survived" and old.get("tests") != "layer"
        if old and not over:
            counted += old["result"] != "no program"
            continue
        if options.again and not old:
            continue
        result, test = tried(mutant, "-Long*:*/Long*" if options.again else suites(mutant.room))
        row = {"key": mutant.key, "file": mutant.file, "room": mutant.room, "line": mutant.line,
               "kind": mutant.kind, "before": mutant.before, "after": mutant.after,
               "result": result, "test": test, "tests": "layer" if options.again else "room"}
        with RESULTS.open("a") as out:
            out.write(json.dumps(row) + "\n")
        counted += result != "no program"
        print(f"{counted:4d} {result:10s} {mutant.file}:{mutant.line} {mutant.kind} {test}", flush=True)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=400)
    parser.add_argument("--rooms", default="", help="a regular expression, such as geometry/board")
    parser.add_argument("--again", action="store_true", help="try the survivors once more")
    parser.add_argument("--table", action="store_true", help="print what came of it")
    options = parser.parse_args()
    if options.table:
        table()
    else:
        campaign(options)


if __name__ == "__main__":
    main()
