#!/usr/bin/python3
"""mutate.py ROOM [--build DIR] [--most N] [--minutes M] [--seed S] [--file FILE]

Which constants does no test notice? Each constant of src/ROOM in turn (in an order drawn from the seed) is made a
fifth larger, the room's own test program is rebuilt and run, and the file is put back. What still passes, or hangs
no test, is listed. Works on a copy of the checkout's sources made in a scratch folder, never on the checkout.
Run on request: one constant takes as long as one source of the room takes to build. Stops at --most constants or
--minutes minutes, whichever comes first.
"""
import argparse, pathlib, random, re, shutil, subprocess, sys, tempfile, time

NUMBER = re.compile(r"(?<![\w.\"#])(\d+\.\d+(?:e-?\d+)?|\d+)(?![\w.\"])")
COMMENT = re.compile(r"//.*|\"(?:[^\"\\]|\\.)*\"")


def constants(path):
    """(offset, text) of numbers in declarations of constants and in tables; 0 and 1 and sizes are left alone."""
    found = []
    offset = 0
    for line in path.read_text().splitlines(keepends=True):
        bare = COMMENT.sub(lambda m: " " * len(m[0]), line)
        toml = path.suffix == ".toml"
        declares = "constexpr" in line or re.match(r"\s*(\{|Project\{)", line) or re.search(r"\d\.\d", bare)
        if (toml and re.match(r"(staple|staple_cv|diameter|diameter_cv|crimp|density|lustre|slipperiness|retention) = ", line)) or (
            not toml and declares and "case " not in line
        ):
            for match in NUMBER.finditer(line.replace('"', " ") if toml else bare):
                if float(match[0]) not in (0.0, 1.0):
                    found.append((offset + match.start(), match[0]))
        offset += len(line)
    return found


def larger(text):
    value = float(text) * 1.2
    return f"{value:.10g}" if "." in text or "e" in text else str(max(int(text) + 1, round(value)))


def run(command, folder, seconds):
    try:
        return subprocess.run(command, cwd=folder, capture_output=True, timeout=seconds).returncode
    except subprocess.TimeoutExpired:
        return 124


def main():
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("room")
    ask.add_argument("--build", help="a configured build folder to start from; its options are taken over")
    ask.add_argument("--most", type=int, default=40)
    ask.add_argument("--minutes", type=float, default=30.0)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--file", help="only this source, from the top of the checkout")
    args = ask.parse_args()
    top = pathlib.Path(__file__).resolve().parent.parent
    with tempfile.TemporaryDirectory(prefix="mutate-") as scratch:
        copy = pathlib.Path(scratch) / "copy"
        shutil.copytree(top, copy, ignore=shutil.ignore_patterns("build*", ".git", ".cache"))
        build = copy / "build"
        options = ["-G", "Ninja", "-DBATTWRIGHT_TESTS=ON", "-DBATTWRIGHT_WINDOW=OFF", "-DCMAKE_CXX_FLAGS_RELEASE=-O1"]
        if shutil.which("ccache"):
            options.append("-DCMAKE_CXX_COMPILER_LAUNCHER=ccache")
        program = f"test_{args.room}"
        make = ["nice", "cmake", "--build", str(build), "-j2", "--target", program]
        if run(["cmake", "-S", ".", "-B", str(build), *options], copy, 300) or run(make, copy, 3600):
            sys.exit("mutate: the unchanged sources do not build")
        if run(["nice", str(build / program)], build, 900):
            sys.exit("mutate: the unchanged sources do not pass")
        files = [copy / args.file] if args.file else sorted(
            p for p in (copy / "src" / args.room).iterdir() if p.suffix in (".cpp", ".hpp", ".toml"))
        todo = [(path, at, text) for path in files for at, text in constants(path)]
        random.Random(args.seed).shuffle(todo)
        print(f"{len(todo)} constants in {args.room}, trying {min(args.most, len(todo))}", flush=True)
        end = time.monotonic() + 60.0 * args.minutes
        tried, lived = 0, []
        for path, at, text in todo[: args.most]:
            if time.monotonic() > end:
                break
            before = path.read_text()
            path.write_text(before[:at] + larger(text) + before[at + len(text):])
            noticed = run(make, copy, 900) != 0 or run(["nice", str(build / program)], build, 300) != 0
            path.write_text(before)
            tried += 1
            if not noticed:
                line = before.count("\n", 0, at) + 1
                lived.append(f"{path.relative_to(copy)}:{line}: {text}: {before.splitlines()[line - 1].strip()}")
                print("not noticed  " + lived[-1], flush=True)
        print(f"tried {tried}, not noticed {len(lived)}")
        return 1 if lived else 0


if __name__ == "__main__":
    sys.exit(main())
