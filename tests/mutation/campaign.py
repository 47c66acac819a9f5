#!/usr/bin/env python3
"""Changes the sources a little, again and again, and asks whether a test notices.

    tests/mutation/campaign.py [--seed N] [--count N] [--rooms REGEX] [--again]
    tests/mutation/campaign.py --at FILE:LINE...
    tests/mutation/campaign.py --table

Each change is drawn by the seed and made in a copy of the source; the object of that one file is linked
in front of what a copy of the tree (build/mutation/tree) was built of. All suites of its layer are run
that run the changed function, which objects that count have shown once: those of its own room first,
then the quick ones. What came of it is a line of
build/mutation/results.jsonl; a change that is there already is not tried again, so that a campaign goes
on where it stopped. `--again` tries the survivors once more if the tests have changed since. `--at`
tries every change of some lines, such as `trim_line.cpp:31`, and keeps no record: what is drawn stays a
fair sample. Exit code 0 when the campaign reached its count.

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
import shlex
import shutil
import signal
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
WORK = ROOT / "build" / "mutation"
TREE = WORK / "tree"
BUILD = TREE / "build"
COMMANDS = BUILD / "compile_commands.json"
RESULTS = WORK / "results.jsonl"
JUDGED = ROOT / "tests" / "mutation" / "judged.txt"

# A change under which a suite takes more processor time than this, and than ten times what it takes
# else, is taken to hang. Time by the clock would depend on what else the machine does.
TEST_SECONDS = 20
TEST_BYTES = 4 << 30

# The program, which some tests start, in a build.
PROGRAM = "cli/shankline"

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
    def layer(self):
        return self.file.split("/")[0]

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
    """A list of changes, every file as likely as its share of places, in the seed's order. It is drawn
    from everything, so that what some rooms draw is a part of what all draw."""
    places = all_mutants("")
    random.Random(seed).shuffle(places)
    places = [p for p in places if re.search(rooms, p.room)]
    return places[: 4 * count]


def run(command, timeout, cwd=TREE):
    try:
        done = subprocess.run(command, cwd=cwd, timeout=timeout, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL)
        return done.returncode, done.stdout.decode(errors="replace")
    except subprocess.TimeoutExpired:
        return None, "took too long"


def name_pattern(text):
    """What the names of the suites match that a file of tests declares."""
    names = re.findall(r"^(?:TEST|TEST_F|TEST_P|TYPED_TEST)\((\w+),", text, re.M)
    return re.compile(rf"(?:\w+/)?(?:{'|'.join(sorted(set(names)) or ['$'])})(?:/\d+)?$")


def prepare(layers):
    """A copy of the tree as it is, built. The tests are compiled some files at a time, what is changed
    file by file."""
    TREE.mkdir(parents=True, exist_ok=True)
    as_it_was()
    listed = subprocess.check_output(["git", "-c", "safe.directory=*", "ls-files", "-co",
                                      "--exclude-standard"], cwd=ROOT, text=True).split("\n")
    for name in filter(None, listed):
        source, target = ROOT / name, TREE / name
        if not source.is_file():
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        if not target.exists() or target.read_bytes() != source.read_bytes():
            shutil.copyfile(source, target)
    wanted = {TREE / name for name in listed}
    for folder in ("geometry", "export", "cli", "tests"):
        for path in (TREE / folder).rglob("*"):
            if path.is_file() and path not in wanted:
                path.unlink()  # renamed or removed since the tree was made
    code, said = run(["cmake", "-G", "Ninja", "-S", ".", "-B", str(BUILD), "-DCMAKE_BUILD_TYPE=RelWithDebInfo",
                      "-DSHANKLINE_TESTS=ON", "-DSHANKLINE_EXACT_TESTS=OFF",
                      "-DSHANKLINE_PRECOMPILED=ON", "-DSHANKLINE_UNITY=ON",
                      f"-DCMAKE_PROJECT_shankline_INCLUDE={TREE}/tests/mutation/file_by_file.cmake",
                      "-DCMAKE_EXE_LINKER_FLAGS=-fuse-ld=lld", "-DCMAKE_CXX_FLAGS=-w",
                      "-DCMAKE_CXX_FLAGS_RELWITHDEBINFO=-O1 -DNDEBUG"], 1800)
    if code != 0:
        sys.exit(said)
    code, said = run(["ninja", "-C", str(BUILD), *(f"tests/{e}_tests" for e in layers)], 7200)
    if code != 0:
        sys.exit(said[-4000:])


def compiled(file, source, made, *more):
    """Compiles `source` as the tree compiles `file`. Returns false where it does not compile."""
    commands = json.loads(COMMANDS.read_text())
    command = next(c["command"] for c in commands if c["file"] == str(TREE / file))
    words = shlex.split(command)
    for option in ("-MT", "-MF"): # Ninja's own
        if option in words:
            del words[words.index(option) : words.index(option) + 2]
    words[words.index("-o") + 1] = str(made)
    words[words.index("-c") + 1] = str(source)
    # Another level of optimization than that of the precompiled headers would read them all anew.
    code, said = run([*(w for w in words if w != "-MD"), *more], 3600, BUILD)
    return code == 0


def linked(program, objects, *more):
    """Links a program of the build anew, with these objects in front of the libraries that have the
    same ones. Ninja does not notice: as_it_was() takes it back."""
    code, said = run(["ninja", "-t", "commands", "-s", program], 60, BUILD)
    words = shlex.split(re.search(rf"^: && (.*? -o {program} .*?) && ", said, re.M).group(1))
    kept = WORK / "as_it_was" / program
    if not kept.exists():
        kept.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(BUILD / program, kept)
    (BUILD / program).unlink()
    code, said = run([words[0], *more, *map(str, objects), *words[1:]], 3600, BUILD)
    if code != 0:
        as_it_was()
        sys.exit(said[-4000:])


def as_it_was():
    """Puts programs back that were linked with a change; after a campaign that was stopped, too."""
    for kept in [p for p in (WORK / "as_it_was").rglob("*") if p.is_file()]:
        target = BUILD / kept.relative_to(WORK / "as_it_was")
        target.unlink(missing_ok=True)
        shutil.copy2(kept, target)
        kept.unlink()


def digest(*folders):
    files = sorted(p for f in folders for p in (TREE / f).rglob("*") if p.is_file())
    whole = hashlib.sha256()
    for path in files:
        whole.update(str(path.relative_to(TREE)).encode() + b"\n" + path.read_bytes())
    return whole.hexdigest()[:12]


class Suites:
    """The suites of a layer, what each takes and which functions of the layer it runs."""

    def __init__(self, layer):
        self.layer = layer
        self.digest = digest("tests/support", "tests/geometry", f"tests/{layer}", "samples")
        kept = WORK / f"suites_{layer}.json"
        wanted = digest("geometry", "export", "tests", "samples")
        found = json.loads(kept.read_text()) if kept.exists() else {}
        if found.get("of") != wanted:
            found = {"of": wanted, "suites": self.measured()}
            kept.write_text(json.dumps(found))
        self.suites = found["suites"]

    def counting(self):
        """Links programs whose objects count. Gives these objects by their sources."""
        made = WORK / "counting" / self.layer
        made.mkdir(parents=True, exist_ok=True)
        objects = {}
        for path in sources(f"^{self.layer}/"):
            name = str(path.relative_to(ROOT))
            objects[name] = made / (name.replace("/", "-") + ".o")
            if not compiled(name, TREE / name, objects[name], "-O0", "--coverage"):
                sys.exit(f"{name} does not compile")
        linked(f"tests/{self.layer}_tests", objects.values(), "--coverage")
        if (BUILD / PROGRAM).exists():
            linked(PROGRAM, objects.values(), "--coverage")
        return objects

    def measured(self):
        objects = self.counting()
        made = [e.with_suffix(".gcda") for e in objects.values()]
        program = str(BUILD / "tests" / f"{self.layer}_tests")
        tests = [(f"{self.layer}/{e.parent.name}", e.read_text())
                 for e in (TREE / "tests" / self.layer).glob("*/*_test.cpp")]
        code, listed = run([program, "--gtest_list_tests", "--gtest_filter=-Long*:*/Long*"], 60)
        found = {}
        for name in re.findall(r"^(\S+)\.(?: .*)?$", listed, re.M):
            for counts in made:
                counts.unlink(missing_ok=True)
            before = os.times()
            code, said = run([program, f"--gtest_filter={name}.*", "--gtest_brief=1"], 3600)
            after = os.times()
            if code != 0:
                sys.exit(f"{name} fails before anything is changed:\n{said[-2000:]}")
            took = sum(after[i] - before[i] for i in (2, 3)) # of those that were waited for
            seen = {}
            for file, counts in zip(objects, made):
                if not counts.exists():
                    continue
                said = subprocess.check_output(["gcov", "--json-format", "--stdout", counts.name],
                                               cwd=counts.parent, stderr=subprocess.DEVNULL)
                ran = {(f["start_line"], f["end_line"])
                       for line in said.splitlines() for of in json.loads(line)["files"]
                       if of["file"].endswith(file) for f in of["functions"]
                       if f["execution_count"] and not f["name"].startswith(("_GLOBAL_", "_Z41__"))}
                if ran:
                    seen[file] = sorted(ran)
            room, text = next((e for e in tests if name_pattern(e[1]).match(name)), ("", ""))
            found[name] = {"seconds": round(took, 2), "room": room,
                           "starts": "places::program" in text, "seen": seen}
            print(f"  {name} takes {took:.2f} s and runs {len(seen)} files", flush=True)
        as_it_was()
        return found

    def that_run(self, mutant):
        """Suites that run the changed function, or, for what stands in none, any of its file: those of
        its own room first, then the quick ones."""
        places = [p for e in self.suites.values() for p in e["seen"].get(mutant.file, [])]
        in_one = any(a <= mutant.line <= b for a, b in places)
        names = [n for n, e in self.suites.items()
                 if any(a <= mutant.line <= b or not in_one
                        for a, b in e["seen"].get(mutant.file, []))]
        return sorted(names, key=lambda n: (self.suites[n]["starts"],
                                            self.suites[n]["room"] != mutant.room,
                                            self.suites[n]["seconds"]))


def judged_by_tests(suites, names):
    """Runs suites, two at a time, and ends both when a test fails."""
    waiting, running = list(reversed(names)), []

    def ended():
        for name, out, process in running:
            process.kill()
            process.wait()
            out.close()

    while waiting or running:
        while waiting and len(running) < 2:
            name = waiting.pop()
            seconds = int(TEST_SECONDS + 10 * suites.suites[name]["seconds"])

            def limited(seconds=seconds):
                resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
                resource.setrlimit(resource.RLIMIT_AS, (TEST_BYTES, TEST_BYTES))

            out = tempfile.TemporaryFile()
            running.append((name, out, subprocess.Popen(
                [str(BUILD / "tests" / f"{suites.layer}_tests"), "--gtest_brief=1", "--gtest_fail_fast",
                 f"--gtest_filter={name}.*"],
                cwd=TREE, stdout=out, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL,
                preexec_fn=limited)))
        time.sleep(0.01)
        for entry in list(running):
            name, out, process = entry
            if process.poll() is None:
                continue
            if process.returncode != 0:
                out.seek(0)
                failed = re.search(r"\[  FAILED  \] ([^\s,]+)", out.read().decode(errors="replace"))
                ended()
                how = "hung" if process.returncode == -signal.SIGKILL else "crashed"
                return "killed", failed.group(1) if failed else f"{name} {how}"
            out.close()
            running.remove(entry)
    return "survived", ""


def objects_with(mutant):
    """The changed object, or none where it does not compile."""
    changed = WORK / "changed"
    changed.mkdir(exist_ok=True)
    text = (TREE / mutant.file).read_text()
    source = changed / pathlib.Path(mutant.file).name
    source.write_text(text[: mutant.begin] + mutant.new + text[mutant.end :])
    made = source.with_suffix(".o")
    return [made] if compiled(mutant.file, source, made) else []


def tried(mutant, suites):
    objects = objects_with(mutant)
    if not objects:
        return "no program", ""
    try:
        linked(f"tests/{suites.layer}_tests", objects)
        names = suites.that_run(mutant)
        starting = [n for n in names if suites.suites[n]["starts"]]
        result, test = judged_by_tests(suites, [n for n in names if n not in starting])
        if result == "survived" and starting: # The program is linked for these alone.
            linked(PROGRAM, objects)
            result, test = judged_by_tests(suites, starting)
        return result, test
    finally:
        as_it_was()


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
    WORK.mkdir(parents=True, exist_ok=True)
    known = results()
    counted = 0
    # What is tried again was drawn before, perhaps from a tree that had other places.
    if options.at:
        places = [m for m in all_mutants("") if f"{m.file}:{m.line}".endswith(tuple(options.at))]
    elif options.again:
        places = [m for m in all_mutants(options.rooms)
                  if known.get(m.key, {}).get("result") == "survived"]
    else:
        places = drawn(options.rooms, options.seed, options.count)
    layers = sorted({m.layer for m in places})
    prepare(layers)
    suites = {layer: Suites(layer) for layer in layers}
    for mutant in places:
        if counted >= options.count and not options.again and not options.at:
            return
        old = known.get(mutant.key)
        if options.again and old.get("tests") == suites[mutant.layer].digest:
            continue
        if old and not options.again and not options.at:
            counted += old["result"] != "no program"
            continue
        result, test = tried(mutant, suites[mutant.layer])
        row = {"key": mutant.key, "file": mutant.file, "room": mutant.room, "line": mutant.line,
               "kind": mutant.kind, "before": mutant.before, "after": mutant.after,
               "result": result, "test": test, "tests": suites[mutant.layer].digest}
        if not options.at:
            with RESULTS.open("a") as out:
                out.write(json.dumps(row) + "\n")
        counted += result != "no program"
        print(f"{counted:4d} {result:10s} {mutant.key} {mutant.file}:{mutant.line} {mutant.kind} {test}",
              flush=True)
        if options.at:
            print(f"       {mutant.after}", flush=True)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=400)
    parser.add_argument("--rooms", default="", help="a regular expression, such as geometry/board")
    parser.add_argument("--again", action="store_true", help="try the survivors once more")
    parser.add_argument("--at", nargs="+", metavar="FILE:LINE", help="try every change of these lines")
    parser.add_argument("--table", action="store_true", help="print what came of it")
    options = parser.parse_args()
    if options.table:
        table()
    else:
        campaign(options)


if __name__ == "__main__":
    main()
