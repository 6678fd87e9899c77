#!/usr/bin/python3
"""mutate.py ROOM [--with ROOM ...] [--work DIR] [--minutes M] [--most N] [--seed S] [--again]

Which constants does no test notice? Each constant of src/ROOM in turn is made a fifth larger and the room's test
program run until a case fails (then the programs of --with, for what it missed). What every case passes is listed.

All the changes are compiled once: in a copy of the checkout each literal becomes a call that is handed its number,
and an environment variable says which of them is larger (a "mutant schema": Untch, Offutt and Harrold 1993). Only the
cases that reach a constant are run, those that noticed most before first. The catalogue's figures are changed in the
text that the program reads.

Left alone, by rule: 0 and 1; what is under a millionth (a tolerance of the arithmetic); the middle of an interval that is
halved and the most turns of such an iteration (20 and more), which change no result; numbers of versions; sizes of
arrays, indices, template arguments, enumerators, labels of a switch; lustre and slipperiness of the catalogue, which are
judgements on scales of its own; what has to be known to the compiler (counted and named). Run on request; stops after --minutes. --work keeps the copy, --again tries only what was not noticed the last
time.
"""
import argparse, json, os, pathlib, random, re, shutil, subprocess, sys, tempfile, time

TOKEN = re.compile(
    r"""(?P<skip>//[^\n]*|/\*.*?\*/|R"\(.*?\)"|"(?:\\.|[^"\\\n])*"|\s+)|(?P<directive>(?<![^\n])[ \t]*\#(?:\\\n|[^\n])*)"""
    r"""|(?P<number>0[xX][0-9a-fA-F']+[uUlLzZ]*|(?:\d[\d']*(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?[uUlLfFzZ]*)"""
    r"""|(?P<char>'(?:\\.|[^'\\\n])+')|(?P<word>[A-Za-z_]\w*)|(?P<mark>::|.)""", re.S)
FIGURES = re.compile(r'^(staple|staple_cv|diameter|diameter_cv|density|allowance|crimp|retention) = "?([\d.]+)')
HEADER = """#pragma once
#include <cstdio>
#include <cstdlib>
#include <string>
#include <type_traits>
namespace battwright_mutants {
inline unsigned char reached[%d];
inline int chosen() {
    static const int index = [] {
        if (std::getenv("MUTANTS_REACHED") != nullptr) std::atexit([] {
            if (std::FILE* file = std::fopen(std::getenv("MUTANTS_REACHED"), "w")) {
                for (std::size_t i = 0; i < sizeof reached; ++i) if (reached[i] != 0) std::fprintf(file, "%%zu\\n", i);
                std::fclose(file);
            }
        });
        const char* text = std::getenv("MUTANT");
        return text == nullptr ? -1 : std::atoi(text);
    }();
    return index;
}
template <class T> T of(int index, T value) {
    const bool is_it = index == chosen();
    reached[index] = 1;
    if (!is_it) return value;
    if constexpr (std::is_floating_point_v<T>) return value * T(1.2);
    else return value + (value / 5 > 0 ? T((value + 2) / 5) : T(1));
}
inline std::string edited(const char* bytes, std::size_t size) {
    std::string text(bytes, size);
    (void)of(%d, 0.0);
    const char* edit = std::getenv("MUTANT_EDIT");
    std::size_t at = 0, length = 0;
    char instead[32];
    if (edit != nullptr && std::sscanf(edit, "%%zu %%zu %%31s", &at, &length, instead) == 3) text.replace(at, length, instead);
    return text;
}
}
"""


class Source:
    """One file of the room: its tokens, its constants, its constexprs."""

    def __init__(self, name, text):
        self.name, self.text = name, text
        self.tokens = [m for m in TOKEN.finditer(text)]
        self.solid = [i for i, m in enumerate(self.tokens) if m.lastgroup not in ("skip", "directive")]
        self.numbers, self.fixed = [], {}  # token indices; constexpr's index -> (end of what it declares, its stand-in)
        self.find()

    def line(self, token):
        return self.text.count("\n", 0, self.tokens[token].start()) + 1

    def find(self):
        scopes, brackets, statement = [], [], []
        quiet = None  # depth of brackets at which a passage without constants ends
        words = [self.tokens[i][0] for i in self.solid]
        for at, index in enumerate(self.solid):
            word, kind = words[at], self.tokens[index].lastgroup
            before = words[at - 1] if at else ""
            after = words[at + 1] if at + 1 < len(words) else ""
            if word in ("static_assert", "case", "enum", "static_cast") and quiet is None and word != "static_cast":
                quiet = (word, len(brackets))
            if word == "constexpr" and before != "if" and quiet is None:
                self.fixed[index] = self.stand_in(at, words, scopes)
            if kind == "number" and quiet is None and "[" not in brackets:
                in_template = after == ">" and before in ("<", ",")
                line = self.text[self.text.rfind("\n", 0, self.tokens[index].start()) + 1 : self.text.find("\n", self.tokens[index].start())]
                halving = word == "0.5" and re.search(r"0\.5 \* \((low \+ high|high \+ low)\)", line)
                turns = before == "<" and re.search(r"for \((int|std::size_t) \w+ = \d+; \w+ < (\d+)", line) and float(word.split(".")[0] or 0) >= 20
                version = re.search(r"\w+_(number|version|format) = ", line)
                if not (in_template or halving or turns or version) and self.is_constant(word):
                    self.numbers.append(index)
            if word in "([{" and kind == "mark":
                brackets.append(word)
                if word == "{":
                    scopes.append("class" if {"struct", "class", "union"} & set(statement) and "(" not in statement
                                  else "namespace" if "namespace" in statement else "block")
            elif word in ")]}" and kind == "mark" and brackets:
                if brackets.pop() == "{":
                    scopes.pop()
            if quiet and len(brackets) <= quiet[1] and word == {"case": ":", "enum": "}", "static_assert": ")"}[quiet[0]]:
                quiet = None
            elif quiet and quiet[0] == "enum" and word == ";":
                quiet = None
            statement = [] if word in (";", "{", "}") else statement + [word]

    @staticmethod
    def is_constant(word):
        if word[:2] in ("0x", "0X"):
            return False
        value = float(word.rstrip("uUlLfFzZ").replace("'", ""))
        return value not in (0.0, 1.0) and value > 1e-6

    def stand_in(self, at, words, scopes):
        """(last token of the declaration, what to write for constexpr)"""
        depth, is_function, angle = 0, None, 0
        for next_at in range(at + 1, len(words)):
            word = words[next_at]
            if is_function is None and not angle and word in ("=", "{", ";", "("):
                is_function = word == "("
            if is_function is None:
                angle += {"<": 1, ">": -1}.get(word, 0)
            depth += {"(": 1, "{": 1, "[": 1, ")": -1, "}": -1, "]": -1}.get(word, 0)
            if depth == 0 and (word == ";" or (word == "}" and is_function)):
                break
        scope = scopes[-1] if scopes else "namespace"
        if is_function:
            text = "inline" if words[at - 1] != "inline" else ""
        elif words[at + 1] == "const":
            text = ""
        else:
            text = "inline const" if scope == "class" else "const"
        return self.solid[next_at], text

    def written(self, index_of, kept, plain):
        """The file with its constants handed out by number, but for the constexprs of `kept` and the tokens of `plain`."""
        spans = [(start, self.fixed[start][0]) for start in kept]
        out = []
        for i, match in enumerate(self.tokens):
            if i in self.fixed and i not in kept:
                out.append(self.fixed[i][1])
            elif (self.name, i) in index_of and i not in plain and not any(a <= i <= b for a, b in spans):
                out.append(f"battwright_mutants::of({index_of[self.name, i]}, {match[0]})")
            else:
                out.append(match[0])
        return '#include "mutants.hpp"\n#line 1\n' + "".join(out)


def put(path, text):
    if not path.exists() or path.read_text() != text:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)


def copied(top, copy, appendix):
    """The checkout's files beside it, each left alone where it has not changed; the build file with an appendix."""
    names = subprocess.run(["git", "ls-files", "-co", "--exclude-standard"], cwd=top, capture_output=True, text=True, check=True).stdout.split("\n")
    for name in filter(None, names):
        source, target = top / name, copy / name
        if name == "CMakeLists.txt":
            put(target, source.read_text() + appendix)
        elif source.is_file() and (not target.exists() or target.read_bytes() != source.read_bytes()):
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(source, target)
    for folder in ("src", "tests"):
        for target in (copy / folder).rglob("*.[ch]pp"):
            if not (top / target.relative_to(copy)).exists() and target.name != "mutants.hpp":
                target.unlink()


class Program:
    """One test program, case by case."""

    def __init__(self, path, copy):
        self.path, self.copy, self.name = path, copy, path.name
        count = subprocess.run([path, "-c", "--no-version"], capture_output=True, text=True).stdout
        self.cases = list(range(1, int(re.search(r"(\d+)\s*$", count.strip())[1]) + 1))
        self.seconds, self.reached, self.noticed = {}, {}, {case: 0 for case in self.cases}
        self.whole = False

    def run(self, case, environment, limit):
        command = ["nice", "-n", "15", self.path, "--abort-after=1"]
        command += [f"--first={case}", f"--last={case}"] if case else []
        try:
            ended = subprocess.run(command, cwd=self.copy / "build", capture_output=True, timeout=limit,
                                   env={**os.environ, "XDG_DATA_HOME": str(self.copy / "none"), **environment})
            return ended.returncode
        except subprocess.TimeoutExpired:
            return 124

    def look(self):
        for case in list(self.cases):
            note = self.copy / "reached.txt"
            note.unlink(missing_ok=True)
            began = time.monotonic()
            if self.run(case, {"MUTANTS_REACHED": str(note)}, 600):
                print(f"{self.name}: case {case} does not pass unchanged: left out", flush=True)
                self.cases.remove(case)
                continue
            self.seconds[case] = time.monotonic() - began
            self.reached[case] = set(map(int, note.read_text().split())) if note.exists() else set()
        self.whole = self.run(0, {}, 600) == 0

    def notices(self, index, environment):
        cases = [case for case in self.cases if index in self.reached[case]]
        # Many quick cases cost more to start than to run.
        if len(cases) > 4 and self.whole and sum(self.seconds[case] for case in self.cases) < 0.05 * len(self.cases):
            return self.run(0, environment, 60) != 0
        cases.sort(key=lambda case: self.seconds[case] / (1 + self.noticed[case]))
        for case in cases:
            if self.run(case, environment, 10 + 8 * self.seconds[case]):
                self.noticed[case] += 1
                return True
        return False


class Room:
    def __init__(self, top, copy, name):
        self.top, self.copy, self.name = top, copy, name
        self.sources = [Source(str(path.relative_to(top)), path.read_text())
                        for path in sorted((top / "src" / name).iterdir()) if path.suffix in (".cpp", ".hpp")]
        self.kept = {source.name: set() for source in self.sources}
        self.plain = {source.name: set() for source in self.sources}
        self.index_of = {}
        for source in self.sources:
            for token in source.numbers:
                self.index_of[source.name, token] = len(self.index_of)
        self.edits = []
        offset = 0
        for toml, number, line in ((toml, number, line)
                                   for toml in sorted((top / "src" / name / "catalogue").glob("*.toml"))
                                   for number, line in enumerate(toml.read_bytes().splitlines(), 1)):
            match = FIGURES.match(line.decode())
            if match and Source.is_constant(match[2]):
                larger = f"{float(match[2]) * 1.2:.6g}"
                if match[1] == "retention" and float(larger) > 100.0:
                    larger = f"{float(match[2]) / 1.2:.6g}"
                self.edits.append((str(toml.relative_to(top)), number, match[2], line.decode(),
                                   f"{offset + len(line[:match.start(2)])} {len(match[2])} {larger}"))
            offset += len(line) + 1

    def write(self):
        count = len(self.index_of)
        put(self.copy / "src" / "mutants.hpp", HEADER % (count + 1, count))
        for source in self.sources:
            text = source.written(self.index_of, self.kept[source.name], self.plain[source.name])
            text = text.replace("{bytes, embedded::catalogue_toml_size}",
                                "battwright_mutants::edited(bytes, embedded::catalogue_toml_size)")
            put(self.copy / source.name, text)

    def give_way(self, errors):
        """Puts back what the compiler has to know; says whether anything was."""
        changed = False
        for path, line in re.findall(r"(?m)^(?:.*?)((?:src|tests)/[\w/.]+):(\d+):", errors):
            for source in self.sources:
                if source.name != path:
                    continue
                for start, (end, _) in source.fixed.items():
                    if source.line(start) <= int(line) <= source.line(end) and start not in self.kept[path]:
                        self.kept[path].add(start)
                        changed = True
                for token in source.numbers:
                    if source.line(token) == int(line) and token not in self.plain[path]:
                        self.plain[path].add(token)
                        changed = True
        return changed

    def tried(self):
        """index, file, line, literal, code, environment"""
        for source in self.sources:
            lines = source.text.split("\n")
            spans = [(a, source.fixed[a][0]) for a in self.kept[source.name]]
            for token in source.numbers:
                fixed = token in self.plain[source.name] or any(a <= token <= b for a, b in spans)
                index = self.index_of[source.name, token]
                line = source.line(token)
                yield (index, source.name, line, source.tokens[token][0], lines[line - 1].strip(), fixed,
                       {"MUTANT": str(index)})
        for name, line, literal, code, edit in self.edits:
            yield len(self.index_of), name, line, literal, code, False, {"MUTANT_EDIT": edit}


def built(room, programs, build):
    quiet = "".join(f"target_compile_options({name} PRIVATE -w -Wno-narrowing)\n"
                    for name in [f"battwright_{room.name}", *programs])
    copied(room.top, room.copy, quiet)
    room.write()
    if not (build / "build.ninja").exists():
        options = ["-G", "Ninja", "-DBATTWRIGHT_TESTS=ON", "-DBATTWRIGHT_WINDOW=OFF", "-DCMAKE_BUILD_TYPE=Release",
                   "-DCMAKE_CXX_FLAGS_RELEASE=-O1", "-DCMAKE_CXX_FLAGS=-Wno-maybe-uninitialized"]
        if shutil.which("mold"):
            options.append("-DCMAKE_EXE_LINKER_FLAGS=-fuse-ld=mold")
        if shutil.which("ccache"):
            options.append("-DCMAKE_CXX_COMPILER_LAUNCHER=ccache")
        subprocess.run(["cmake", "-S", room.copy, "-B", build, *options], check=True, capture_output=True)
    for _ in range(20):
        made = subprocess.run(["nice", "-n", "10", "cmake", "--build", build, "-j1", "--target", *programs],
                              capture_output=True, text=True)
        if made.returncode == 0:
            return
        if not room.give_way(made.stdout):
            sys.exit(f"mutate: does not build\n{made.stdout[-3000:]}")
        room.write()
    sys.exit("mutate: does not build after twenty tries")


def main():
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("room")
    ask.add_argument("--with", dest="others", nargs="*", default=[], metavar="ROOM")
    ask.add_argument("--work")
    ask.add_argument("--minutes", type=float, default=30.0)
    ask.add_argument("--most", type=int, default=100000)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--again", action="store_true")
    args = ask.parse_args()
    top = pathlib.Path(__file__).resolve().parent.parent
    work = pathlib.Path(args.work).resolve() if args.work else pathlib.Path(tempfile.mkdtemp(prefix="mutate-"))
    try:
        return tell(Room(top, work / "copy", args.room), args, work)
    finally:
        if not args.work:
            shutil.rmtree(work)


def tell(room, args, work):
    end = time.monotonic() + 60.0 * args.minutes
    names = [f"test_{name}" for name in [args.room, *args.others]]
    build = room.copy / "build"
    built(room, names, build)
    programs = [Program(build / name, room.copy) for name in names]
    for program in programs:
        program.look()
    todo = list(room.tried())
    fixed = [one for one in todo if one[5]]
    todo = [one for one in todo if not one[5]]
    memory = work / f"{args.room}.json"
    if args.again and memory.exists():
        missed = {tuple(entry) for entry in json.loads(memory.read_text())}
        todo = [one for one in todo if (one[1], one[3], one[4]) in missed]
    random.Random(args.seed).shuffle(todo)
    todo = todo[: args.most]
    print(f"{args.room}: {len(todo)} constants to try, {len(fixed)} known to the compiler and left alone", flush=True)
    tried, lived = 0, []
    for index, name, line, literal, code, _, environment in todo:
        if time.monotonic() > end:
            print(f"stopped by the clock with {len(todo) - tried} to go")
            break
        tried += 1
        if not any(program.notices(index, environment) for program in programs):
            lived.append((name, literal, code))
            print(f"not noticed  {name}:{line}: {literal}: {code}", flush=True)
    memory.write_text(json.dumps(lived))
    for _, name, line, literal, code, *_ in fixed:
        print(f"left alone   {name}:{line}: {literal}: {code}")
    share = 100.0 * len(lived) / tried if tried else 0.0
    print(f"{args.room}: tried {tried}, not noticed {len(lived)} ({share:.0f} %)")
    return 1 if lived else 0


if __name__ == "__main__":
    sys.exit(main())
