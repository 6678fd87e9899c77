#!/usr/bin/python3
"""mutate.py [ROOM ...] [--build DIR] [--work DIR] [--minutes M] [--most N] [--seed S] [--again] [--file PART]

Which constants does no test notice? Each constant of src/ROOM in turn is made a fifth larger and test programs are run
until a case fails: the room's own first, then those of the rooms named for it in NOTICED_BY. What every case passes is
listed. No ROOM: every room of the engine.

All the changes of a room are compiled once, and nothing else is: in a copy of its sources each literal becomes a call
that is handed its number, and an environment variable says which of them is larger (a "mutant schema": Untch, Offutt and
Harrold 1993); the rest is linked as it lies in --build, where the test programs have to be made beforehand. What a
header's constant does in the code of a test or of another room therefore stays as it was, but for --headers, which
compiles the room's own tests with it, too. Only the cases that reach a constant are run, those that noticed most before
first, and not longer than --seconds for one constant. The catalogue's figures are changed in the text that the program
reads.

Not constants in this sense: 0 and 1; indices and sizes in brackets, template arguments, enumerators, labels of a
switch. What changes no result by its nature is told apart by the rules of TECHNICAL and counted on its own, and so is
what the compiler has to know. Run on request; stops after --minutes a room. --work keeps what was made, --again tries only
what was not noticed the last time.
"""
import argparse, json, os, pathlib, random, re, resource, shlex, shutil, subprocess, sys, tempfile, time, tomllib

TOKEN = re.compile(
    r"""(?P<skip>//[^\n]*|/\*.*?\*/|R"(?P<mark_of_raw>\w*)\(.*?\)(?P=mark_of_raw)"|"(?:\\.|[^"\\\n])*"|\s+)|(?P<directive>(?<![^\n])[ \t]*\#(?:\\\n|[^\n])*)"""
    r"""|(?P<number>0[xX][0-9a-fA-F']+[uUlLzZ]*|(?:\d[\d']*(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?[uUlLfFzZ]*)"""
    r"""|(?P<char>'(?:\\.|[^'\\\n])+')|(?P<word>[A-Za-z_]\w*)|(?P<mark>::|.)""", re.S)
ROOMS = "text measure toml fibre colour recipe staple yarn carding forecast stash solve shelving strip card".split()
# Whose tests are run for a room, besides its own, for what its own do not notice.
NOTICED_BY = {"measure": ["yarn", "recipe", "stash"], "fibre": ["staple"], "recipe": ["staple", "forecast"],
              "staple": ["forecast"], "colour": ["forecast"], "carding": ["forecast"], "yarn": ["forecast"],
              "solve": ["shelving"]}
# Constants that change no result by their nature: what stands in the line before and after one (or at it, in brackets), and why.
TECHNICAL = [
    (r"0\.5", r"", r"0\.5 \* \((low \+ high|high \+ low)\)", "the middle of an interval that is halved"),
    (r"2\.0", r"\((low \+ high|high \+ low)\) / $", r"", "the middle of an interval that is halved"),
    (r"2", r"\(high - low\) / $", r"", "the middle of an interval that is halved"),
    (r"1e\d+", r"\b(no_limit|refused) = $", r"", "a number for what has no end"),
    (r"\d{2,}", r"(for|while) \(.*<=? $", r"", "the most turns of an iteration"),
    (r".*e-(0[6-9]|[6-9]|[1-9]\d+)", r"", r"", "a tolerance of the arithmetic: a millionth and less"),
    (r".*", r"double (x0|by|past_blue|past_green|leaning_cost) = |lots_at_start = ", r"", "where an iteration starts"),
    (r"\d+", r"\b(most_(tries|copies|idle)|milliseconds_between_tries|steps_at_a_look) = $", r"",
     "how often it looks whether another program is done, or what is kept ready: its time"),
    (r"\d+", r"\bcoarse_grid\{[^}]*$", r"", "how finely a batt is cut: its time, and how near the answer it ends"),
    (r"[\d.]+", r"", r"(\* (\w+\.)?letter(_pt|s)?\b|\bletters?(_pt)? [*+])", "a distance on a page, in letters: its look"),
    (r"[\d.]+", r"(cairo_set_line_width|cairo_set_source_rgb|line_ink)\([^()]*$", r"", "the ink of a line: its look"),
    (r"[\d.]+", r"", r"\bline_ink\(0\.0, ", "the ink of a line: its look"),
    (r"[\d.]+", r"\w+_share = $", r"of the letter size$", "a distance on a page, in letters: its look"),
    (r"[\d.]+", r"\w+_size = $", r"of plain text$", "a size of letters: its look"),
    (r"[\d.]+", r"double \w+_pt = $", r"", "a size on paper, in points: its look"),
    (r".*", r"\w+_(number|version|format) = $", r"", "the number of a version"),
    (r"[2-9]", r"< $", r"for \((int|std::size_t) \w+ = \d; \w+ < \d;", "the size of what a loop goes over"),
    (r".*", r"\b(most_(subsets|lots_tried|work|looks|steps|rounds|programs|fits|samples|white_samples|spots|pooled)"
            r"|fewest_subsets|in_passing|(rounded|polished|spare)_sets|few_(lots|rows|portions|ways)|pool|starts|patient|hasty"
            r"|columns_a_round|lags_at_once|makings|points|samples|classes|balancing_most|restarts|looks|reach_sigmas"
            r"|lines_each_way|shaken|sweeps|pool_a_batt|models_(matched|branched)"
            r"|most_(at_once|trials|for_twos|sums|lots)|scanned_side|noticeable|(m|mixing)_steps|(m|mixing)_step)\b[^;]*= $", r"",
     "how far a search or a sum goes: its time, and how near the answer it ends"),
    (r".*", r"", r"(\btrust_\b|\bmerit\(|\bprice = std::max\(|\bby \*= |\bhalf_difference = |double shift = |\bapart = 1e|\ba_trace = 1e|\bstep = 2e-4)",
     "how boldly a search steps, or a finite difference"),
    (r"0[0-7]+", r"", r"", "the bits of a file's mode"),
    (r"\d+", r"", r"(\+ 4096 \* |return 64 \* static_cast|seed \+ 977 \* )", "which of many streams of chance"),
    (r"[\d']+", r"(with|uniform|normal|dice_for|mt19937|mt19937_64)(\(| \w+\(|\(seed, )$", r"", "which of many streams of chance"),
    (r"\d+", r"", r"(>> 11u|0x1\.0p-53|x \^ \(x >>)", "how whole numbers of chance become fractions"),
    (r"\d+", r"reserve\($", r"", "room asked for in advance"),
    (r"0\.5", r"", r"\bsplit = \{", "which branch of a search is looked at first"),
    (r"100\.0", r" - $", r"- 100\.0 \* m\w*\.use_worth \*", "where an iteration starts"),
    (r"[\d.]+", r"reporter_?\.tell\([^\"]*$", r"", "how far along a bar of progress stands"),
    (r"\d+", r"(FinderEffort \w+|left_by_others\(b, false\), )\{[\d, ]*$|best_relaxed\([\w.]+, $", r"",
     "how far a search goes: its time, and how near the answer ends"),
    (r".*", r"", r"(\bpromised\b|\* columns_a_round\b|\bmost \* |Index most = |round > most / |\* uniform\(\)|const double (step|t) : \{|\b2 \* starts\b|\+\+trials\b"
                r"|effort_\.pool / 2|std::size_t block = |few \? 6 \* most_programs"
                r"|step \*= at < value|double u = -1\.5)", "how boldly a search steps, or a finite difference"),
    (r"\d+", r"\b(tile_px|lanes)\b[^;]*= $", r"", "how much of a picture is worked on at a time"),
    (r"[\d.]+", r"\b(wound|knitted)_sample\{[^}]*$", r"", "how large a sample is measured, and how finely"),
    (r"0\.05", r"float rounding_px = $", r"", "room for the rounding of floats: more of it is looked through in vain"),
    (r"180\.0|2\.0", r"(pi / |)$", r"(pi / 180\.0|180\.0 / pi)", "degrees of half a turn"),
]
FIGURES = re.compile(r'^(staple|staple_cv|diameter|diameter_cv|density|allowance|crimp|retention|lustre|slipperiness) = "?([\d.]+)')
MOST = 4096  # constants of a room
GENTLY = [] if os.nice(0) > 0 else ["nice", "-n", "19"]  # once is enough
HEADER = """#pragma once
#include <cstdio>
#include <cstdlib>
#include <string>
#include <type_traits>
namespace battwright_mutants {
inline unsigned char reached[%d];
inline int chosen() {
    if (std::getenv("MUTANTS_REACHED") != nullptr) std::atexit([] {
        if (std::FILE* file = std::fopen(std::getenv("MUTANTS_REACHED"), "a")) {
            for (std::size_t i = 0; i < sizeof reached; ++i) if (reached[i] != 0) std::fprintf(file, "%%zu\\n", i);
            std::fclose(file);
        }
    });
    const char* text = std::getenv("MUTANT");
    return text == nullptr ? -1 : std::atoi(text);
}
inline const int chosen_one = chosen();
template <class T> inline T of(int index, T value) {
    reached[index] = 1;
    if (index != chosen_one) [[likely]] return value;
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
                if not in_template and self.is_constant(word):
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
        return value not in (0.0, 1.0)

    def technical(self, token):
        """Why this constant changes no result, or None."""
        match = self.tokens[token]
        start = self.text.rfind("\n", 0, match.start()) + 1
        before, line = self.text[start : match.start()], self.text[start : self.text.find("\n", match.end())]
        return next((why for literal, left, whole, why in TECHNICAL
                     if re.fullmatch(literal, match[0].rstrip("uUlLfFzZ")) and re.search(left, before)
                     and re.search(whole, line)), None)

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


class Program:
    """One test program, case by case."""

    def __init__(self, name, work, seconds, only):
        self.path, self.work, self.name, self.longest = work / name, work, name, seconds
        self.only = [f"-tc={only}"] if only else []
        count = subprocess.run([self.path, "-c", "--no-version", *self.only], capture_output=True, text=True).stdout
        self.cases = list(range(1, int(re.search(r"(\d+)\s*$", count.strip())[1]) + 1))
        self.seconds, self.reached, self.noticed = {}, {}, {}
        self.look()

    def run(self, case, environment, seconds):
        """Whether it fails, or takes more than so many seconds of the processor."""
        command = [*GENTLY, "prlimit", f"--cpu={int(seconds) + 2}", self.path, "--abort-after=1", *self.only]
        command += [f"--first={case}", f"--last={case}"] if case else []
        ended = subprocess.run(command, cwd=self.work, capture_output=True,
                               env={**os.environ, "XDG_DATA_HOME": str(self.work / "none"), **environment})
        return ended.returncode != 0

    def look(self):
        known = len(self.cases)
        for case in list(self.cases):
            note = self.work / "reached.txt"
            note.unlink(missing_ok=True)
            began = self.spent()
            if self.run(case, {"MUTANTS_REACHED": str(note)}, self.longest):
                print(f"{self.name}: case {case} does not pass unchanged, or takes too long: left out", flush=True)
                self.cases.remove(case)
                continue
            self.seconds[case] = self.spent() - began
            self.reached[case] = set(map(int, note.read_text().split())) if note.exists() else set()
        if len(self.reached) < 0.9 * known:
            sys.exit(f"mutate: {self.name}: more than a tenth of its cases do not pass unchanged")
        self.together = sum(self.seconds.values()) < 5.0 and not self.run(0, {}, 600)

    @staticmethod
    def spent():
        """Processor seconds of what has been run, whatever else this machine does meanwhile."""
        usage = resource.getrusage(resource.RUSAGE_CHILDREN)
        return usage.ru_utime + usage.ru_stime

    def notices(self, index, file, environment, seconds):
        cases = [case for case in self.cases if index in self.reached[case]]
        weight = lambda case: (0.01 + self.seconds[case]) / (0.2 + self.noticed.get((case, file), 0))
        cases.sort(key=weight)
        # All cases at once cost less than each with a start of its own: after the likeliest, where the whole is quick.
        together = self.together and len(cases) > 2
        left = seconds
        for case in cases[:1] if together else cases:
            if self.seconds[case] > left:
                continue
            left -= self.seconds[case]
            if self.run(case, environment, 5.0 + 5.0 * self.seconds[case]):
                self.noticed[case, file] = self.noticed.get((case, file), 0) + 1
                return True
        return together and self.run(0, environment, 60)


def figures_of(top, room):
    """The catalogue's figures: file, line, figure, line of text, what replaces what in the text, why left alone or None."""
    files = sorted((top / "src" / room / "catalogue").glob("*.toml"))
    whole = tomllib.loads("\n".join(path.read_text() for path in files)) if files else {}
    blocks = {**whole.get("base", {}), **{kind["id"]: kind for kind in whole.get("kind", [])}}

    def said(block, table, figure):
        while block is not None:
            if figure in block.get(table, {}):
                return block[table][figure]
            block = blocks.get(block.get("like"))
        return None

    def why(block, figure, value):
        if figure in ("lustre", "slipperiness"):
            return "a judgement on a scale of the catalogue's own"
        source = said(block, "sources", figure) or "memory"
        held = block.get("published", {}).get(figure)
        if held is not None:
            return "what is published of it differs by more than a fifth" if held[1] >= 1.2 * value else None
        if source == "memory" or whole["sources"].get(source, "").startswith("a guess"):
            return "a guess, shown as one, that widens the forecast"
        return None

    offset, block = 0, {}
    for path in files:
        for number, line in enumerate(path.read_bytes().splitlines(), 1):
            text = line.decode()
            if text.startswith("[base.") or text.startswith("id = "):
                block = blocks[re.search(r'[."]([\w-]+)', text)[1]]
            match = FIGURES.match(text)
            if match and Source.is_constant(match[2]):
                value = float(match[2])
                larger = value / 1.2 if match[1] == "retention" and value * 1.2 > 100.0 else value * 1.2
                place = offset + len(text[: match.start(2)].encode())
                yield (str(path.relative_to(top)), number, match[2], text, f"{place} {len(match[2])} {larger:.6g}",
                       why(block, match[1], value))
            offset += len(line) + 1


class Room:
    def __init__(self, top, name):
        self.top, self.name = top, name
        self.sources = [Source(str(path.relative_to(top)), path.read_text())
                        for path in sorted((top / "src" / name).rglob("*.[ch]pp"))]
        self.edits = list(figures_of(top, name))


class Changed:
    """A room with its constants handed out by number, compiled, and linked with what lies in a build."""

    def __init__(self, top, build, work, room, headers):
        self.top, self.build, self.work, self.headers = top, build, work / room, headers
        self.room, self.objects = Room(top, room), []
        self.sources = {source.name: source for source in self.room.sources}
        self.known = self.remembered("known.json", {})  # file -> lines that the compiler has to know
        self.kept = {name: set() for name in self.sources}
        self.plain = {name: set() for name in self.sources}
        for name, lines in self.known.items():
            source = self.sources.get(name)
            if source:
                text = source.text.split("\n")
                self.keep(source, {n for n, line in enumerate(text, 1) if line.strip() in lines}, exact=True)
        places = [(source.name, token) for source in self.room.sources for token in source.numbers]
        self.index_of = {place: index for index, place in enumerate(places)}

    def remembered(self, name, otherwise):
        path = self.work / name
        return json.loads(path.read_text()) if path.exists() else otherwise

    def write(self):
        put(self.work / "src" / "mutants.hpp", HEADER % (MOST, MOST - 1))
        if not (self.work / "shaders").exists():
            (self.work / "shaders").symlink_to(self.top / "shaders")
        for name, source in self.sources.items():
            text = source.written(self.index_of, self.kept[name], self.plain[name])
            put(self.work / name, text.replace("{bytes, embedded::catalogue_toml_size}",
                                               "battwright_mutants::edited(bytes, embedded::catalogue_toml_size)"))

    def keep(self, source, lines, exact=False):
        changed = False
        for start, (end, _) in source.fixed.items():
            first, last = source.line(start), source.line(end)
            if start not in self.kept[source.name] and any(first <= n <= (first if exact else last) for n in lines):
                self.kept[source.name].add(start)
                self.known.setdefault(source.name, []).append(source.text.split("\n")[first - 1].strip())
                changed = True
        for token in source.numbers:
            n = source.line(token)
            if n in lines and token not in self.plain[source.name]:
                self.plain[source.name].add(token)
                self.known.setdefault(source.name, []).append(source.text.split("\n")[n - 1].strip())
                changed = True
        return changed

    def give_way(self, errors):
        """Puts back what the compiler has to know; says whether anything was."""
        lines = {}
        for path, line in re.findall(r"(?m)^(?:[^\n]*?)((?:src|tests)/[\w/.]+):(\d+):", errors):
            lines.setdefault(path, set()).add(int(line))
        changed = [self.keep(self.sources[path], found) for path, found in lines.items() if path in self.sources]
        put(self.work / "known.json", json.dumps({name: sorted(set(found)) for name, found in self.known.items()}))
        return any(changed)

    def compiled(self, target):
        """Compiles the sources of a target of the build against the changed files; the objects, or what went wrong."""
        objects, here = [], f"{self.work}/src/{self.room.name}/"
        for entry in json.loads((self.build / "compile_commands.json").read_text()):
            if f"/{target}.dir/" not in entry["command"]:
                continue
            text = pathlib.Path(entry["file"]).read_text()
            text = text.replace(f"{self.top}/src/{self.room.name}/", here)
            source = self.work / f"{target}_{len(objects)}.cpp"
            put(source, f'#include "mutants.hpp"\n{text}')
            words = [word for word in shlex.split(entry["command"]) if word != "-Werror"]
            words[words.index("-o") + 1], words[words.index("-c") + 1] = str(source.with_suffix(".o")), str(source)
            words[1:1] = [f"-I{self.work}/src", f"-I{pathlib.Path(entry['file']).parent}"]
            cached = ["ccache"] if shutil.which("ccache") else []
            done = subprocess.run([*GENTLY, *cached, *words, "-O1", "-w", "-Wno-narrowing"], cwd=self.build, capture_output=True, text=True)
            if done.returncode:
                return None, done.stderr
            objects.append(str(source.with_suffix(".o")))
        return objects, ""

    def made(self, tests):
        targets = [f"battwright_{self.room.name}", *([f"test_{self.room.name}"] if self.headers else [])]
        for _ in range(20):
            self.write()
            self.objects = []
            for target in targets:
                objects, errors = self.compiled(target)
                if objects is None:
                    break
                self.objects.append(objects)
            else:
                break
            if not self.give_way(errors):
                sys.exit(f"mutate: does not compile\n{errors[:3000]}")
            print("mutate: some constants have to be known to the compiler: once more", flush=True)
        else:
            sys.exit("mutate: does not compile after twenty tries")
        for test in tests:
            line = subprocess.run(["ninja", "-t", "commands", f"test_{test}"], cwd=self.build, capture_output=True, text=True, check=True).stdout
            words = shlex.split(line.strip().split("\n")[-1].removeprefix(": && ").removesuffix(" && :"))
            words[words.index("-o") + 1] = str(self.work / f"test_{test}")
            words.remove(f"src/libbattwright_{self.room.name}.a")
            if self.headers and test == self.room.name:
                words = [word for word in words if f"/test_{test}.dir/" not in word]
            first = next(at for at, word in enumerate(words) if word.endswith(".o"))
            own = self.objects if test == self.room.name else self.objects[:1]
            words[first:first] = [name for objects in own for name in objects]
            linked = subprocess.run([*GENTLY, *words], cwd=self.build, capture_output=True, text=True)
            if linked.returncode:
                sys.exit(f"mutate: does not link\n{linked.stderr[:3000]}")

    def constants(self):
        """index, file, line, literal, code, environment, why it is left alone or None"""
        for source in self.room.sources:
            lines = source.text.split("\n")
            spans = [(a, source.fixed[a][0]) for a in self.kept[source.name]]
            for token in source.numbers:
                fixed = token in self.plain[source.name] or any(a <= token <= b for a, b in spans)
                index, line = self.index_of[source.name, token], source.line(token)
                why = source.technical(token) or ("known to the compiler" if fixed else None)
                yield index, source.name, line, source.tokens[token][0], lines[line - 1].strip(), {"MUTANT": str(index)}, why
        for name, line, literal, code, edit, why in self.room.edits:
            yield MOST - 1, name, line, literal, code, {"MUTANT_EDIT": edit}, why


def main():
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("rooms", nargs="*", metavar="ROOM")
    ask.add_argument("--build", default="build")
    ask.add_argument("--work")
    ask.add_argument("--headers", action="store_true", help="the room's own tests compiled again as well")
    ask.add_argument("--minutes", type=float, default=30.0)
    ask.add_argument("--seconds", type=float, default=60.0)
    ask.add_argument("--most", type=int, default=100000)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--again", action="store_true")
    ask.add_argument("--file", default="")
    ask.add_argument("--cases", default="", help="only test cases of such names, as doctest's -tc takes them")
    ask.add_argument("--alone", action="store_true", help="the room's own tests only")
    args = ask.parse_args()
    top = pathlib.Path(__file__).resolve().parent.parent
    work = pathlib.Path(args.work).resolve() if args.work else pathlib.Path(tempfile.mkdtemp(prefix="mutate-"))
    try:
        found = []
        for room in args.rooms or ROOMS:
            tests = [room, *([] if args.alone else NOTICED_BY.get(room, []))]
            changed = Changed(top, pathlib.Path(args.build).resolve(), work, room, args.headers)
            changed.made(tests)
            found.append(tell(changed, tests, args))
        return max(found)
    finally:
        if not args.work:
            shutil.rmtree(work)


def tell(changed, tests, args):
    name, end, looked = changed.room.name, time.monotonic() + 60.0 * args.minutes, {}
    todo = list(changed.constants())
    alone = [one for one in todo if one[6]]
    todo = [one for one in todo if not one[6] and args.file in one[1]]
    memory = changed.work / "missed.json"
    if args.again and memory.exists():
        missed = {tuple(entry) for entry in json.loads(memory.read_text())}
        todo = [one for one in todo if (one[1], one[3], one[4]) in missed]
    random.Random(args.seed).shuffle(todo)
    todo = todo[: args.most]
    print(f"{name}: {len(todo)} constants to try, {len(alone)} left alone", flush=True)
    tried, lived = 0, []
    for index, file, line, literal, code, environment, _ in todo:
        if time.monotonic() > end:
            print(f"stopped by the clock with {len(todo) - tried} to go")
            break
        tried += 1
        for test in tests:
            if test not in looked:
                looked[test] = Program(f"test_{test}", changed.work, args.seconds, args.cases)
            if looked[test].notices(index, file, environment, args.seconds):
                break
        else:
            lived.append((file, literal, code))
            print(f"{tried}: not noticed  {file}:{line}: {literal}: {code}", flush=True)
    if not args.file:
        memory.write_text(json.dumps(lived))
    by_reason = {}
    for one in alone:
        by_reason.setdefault(one[6], []).append(one)
    for why, found in by_reason.items():
        for _, file, line, literal, code, *_ in found if len(found) < 40 else []:
            print(f"left alone   {file}:{line}: {literal}: {code}")
        print(f"{name}: left alone: {len(found)}: {why}")
    share = 100.0 * len(lived) / tried if tried else 0.0
    print(f"{name}: tried {tried}, not noticed {len(lived)} ({share:.0f} %)", flush=True)
    return 1 if lived else 0


if __name__ == "__main__":
    sys.exit(main())
