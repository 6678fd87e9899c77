#!/usr/bin/env python3
"""Every bench program's rows and the program's own work as ratios, and what they say about growth.

    tests/bench/run.py BUILD [-o NEW.json] [--compare OLD.json] [--only TEXT] [--slower 1.25] [--wall] [--quick]

BUILD is a build folder with the targets bench, bench_stash, bench_solve and battwright and, where there is a
display, bench_window; what is not there is left out. A row is its time over one frame at 60 Hz, by the clock and
by what the processors spent on it; where the program says so also over one reading and writing of its memory and
over the least arithmetic it takes, both measured in the same run. Rows of the program itself are whole commands:
stashes of 10 to 10,000 lots, 1 to 200 cards, a hand at the window. Rows that differ in a number alone give a growth
line: the exponent of processor time over that number.

With --compare each row is held against the same row of a file that an earlier run wrote on this machine, by
processor time (by the clock with --wall), and the exit code is 1 when one takes `--slower` times as long.
bench_solve holds the search against NLopt's global methods in equal time and speaks for itself: its exit code
counts, too. --quick leaves it and the largest rows out."""

import argparse
import contextlib
import json
import math
import os
import random
import re
import signal
import subprocess
import sys
import tempfile
import time

FRAME = 1.0 / 60.0
SECONDS = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1.0}
ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
BLENDS = os.path.join(ROOT, "blends")
SMALLEST_CPU = 0.02  # seconds; less of a whole command is mostly its start


def rows_of(program, arguments, only):
    """{name: row} of one Google Benchmark program."""
    command = [program, *arguments, "--benchmark_format=json", "--benchmark_min_time=0.2"]
    if only:
        command.append("--benchmark_filter=" + only)
    run = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
    text = run.stdout.decode()
    if run.returncode != 0:
        sys.exit(f"{program} ended with code {run.returncode}: {run.stderr.decode().strip()}")
    if not text.strip().startswith("{"):
        return {}  # no row has that name
    rows = {}
    for row in json.loads(text)["benchmarks"]:
        if row.get("error_occurred"):
            print(f"{row['name']}: {row['error_message']}", file=sys.stderr)
            continue
        unit = SECONDS[row["time_unit"]]
        kept = {"seconds": row["real_time"] * unit, "cpu": row["cpu_time"] * unit}
        kept.update({name: row[name] for name in ("of_memory", "of_arithmetic") if name in row})
        name = row["name"].replace("/real_time", "").replace("/process_time", "")
        rows[os.path.basename(program) + "/" + name] = kept
    return rows


def lots_csv(count):
    """A made-up shelf as the program's own table of lots."""
    luck = random.Random(count)
    kinds = ["merino-fine", "merino-medium", "corriedale", "polwarth", "tussah-silk", "merino-extrafine"]
    columns = "name,fibre,colours,form,weight_g,raw,yield_pct,cost,currency,maker,date,place,photo,staple_mm,diameter_um,notes"
    lines = [columns]
    for i in range(count):
        lines.append(f"tide {i},{luck.choice(kinds)} 100,#{luck.getrandbits(24):06x} 100,top,{luck.uniform(5, 120):.1f},"
                     f"no,100,,,quay {i % 17},20{luck.randint(10, 24)}-0{luck.randint(1, 9)}-1{luck.randint(0, 9)},chest,,,,")
    return "\n".join(lines) + "\n"


class Commands:
    """The program's commands, timed in a folder of their own."""

    def __init__(self, program, folder, only):
        self.program, self.folder, self.only, self.rows = program, folder, only, {}
        self.home = {**os.environ, "HOME": folder}
        for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"):
            self.home[name] = os.path.join(folder, name)

    def path(self, name):
        return os.path.join(self.folder, name)

    def run(self, name, arguments, seconds=None, made=None):
        """One command; ended after `seconds` if given. Code 1 is an answer, too: nothing can be made of it."""
        if self.only and not re.search(self.only, name):
            return
        began = time.monotonic()
        with open(self.path("said"), "wb") as said:
            child = subprocess.Popen([self.program, *arguments], stdout=said, stderr=said, env=self.home)
            if seconds:
                time.sleep(seconds)
                child.send_signal(signal.SIGTERM)
            _, status, used = os.wait4(child.pid, 0)
        if os.waitstatus_to_exitcode(status) not in (0, 1):
            with open(self.path("said"), encoding="utf-8", errors="replace") as said:
                print(f"{name}: {said.read().strip()[:200]}", file=sys.stderr)
            return
        cpu = used.ru_utime + used.ru_stime
        row = {"seconds": cpu if seconds else time.monotonic() - began, "cpu": cpu, "peak_mib": used.ru_maxrss / 1024.0}
        if made:
            row["megabytes"] = os.path.getsize(made) / 1e6
        self.rows["battwright/" + name] = row

    def stashes(self, counts):
        for count in counts:
            table, stash = self.path(f"{count}.csv"), ["--stash", self.path(f"{count}.db")]
            with open(table, "w", encoding="utf-8") as file:
                file.write(lots_csv(count))
            only, self.only = self.only, ""  # the others need it
            self.run(f"import/{count}", ["stash", "import", table, "--write", *stash])
            self.only = only
            self.run(f"scraps/{count}", ["scraps", "--total", "100 g", *stash])
            self.run(f"narrow bounds/{count}", ["scraps", "--total", "80-80.5 g", "--bound", "silk 20-20.5 %",
                                                "wool >= 60 %", "--most-lots", "5", "--least-used", "3 g", *stash])
            self.run(f"gradient of five/{count}", ["match", "#103050", "--to", "#f0c040", "--steps", "5",
                                                   "--total", "60 g", *stash])

    def cards(self, counts):
        names = sorted(name for name in os.listdir(BLENDS) if name.endswith(".toml"))
        recipes = [os.path.join(BLENDS, names[i % len(names)]) for i in range(max(counts))]
        for count in counts:
            made = self.path(f"{count}.pdf")
            self.run(f"cards/{count}", ["card", *recipes[:count], "-o", made], made=made)
        self.run("text card", ["card", recipes[0], "-o", self.path("card.txt")])
        self.run("check", ["check", recipes[0]])

    def window(self, hand):
        recipe = os.path.join(BLENDS, "kelp-and-brass.toml")
        os.makedirs(self.path("XDG_CONFIG_HOME/battwright"), exist_ok=True)
        with open(self.path("XDG_CONFIG_HOME/battwright/window.toml"), "w", encoding="utf-8") as file:
            file.write("guide_seen = true\n")
        self.run("start", [recipe], seconds=4.0)
        for work, moves in (("still", 60), ("ground", 60), ("border", 12), ("border", 60)):
            if not os.path.exists(hand) or (self.only and not re.search(self.only, "hand " + work)):
                continue
            run = subprocess.run([hand, "--hand", work, recipe, str(moves)], stdout=subprocess.PIPE, check=False)
            if run.returncode in (0, -signal.SIGTERM) and run.stdout.strip():
                taken = float(run.stdout)
                self.rows[f"bench_window/hand {work}, a second of {moves} moves"] = {"seconds": taken, "cpu": taken}


def print_rows(rows, old, by):
    print(f"{'row':50} {'of frame':>9} {'CPU':>9} {'of memory':>9} {'of arith.':>9} {'peak MiB':>8} {'MB':>6} {'of old':>7}")
    for name, row in rows.items():
        def cell(key, width, digits, row=row):
            return f"{row[key]:{width}.{digits}f}" if key in row else " " * width
        before = f"{row[by] / old[name][by]:7.2f}" if old.get(name, {}).get(by) else " " * 7
        print(f"{name:50} {row['seconds'] / FRAME:9.4f} {row['cpu'] / FRAME:9.4f} {cell('of_memory', 9, 1)} "
              f"{cell('of_arithmetic', 9, 1)} {cell('peak_mib', 8, 0)} {cell('megabytes', 6, 1)} {before}")


def print_growth(rows):
    """Rows that are the same but for one number, smallest to largest: the exponent of each step."""
    families = {}
    for name, row in rows.items():
        for found in re.finditer(r"(?<=[/:])\d+", name):
            key = name[: found.start()] + "N" + name[found.end() :]
            families.setdefault(key, []).append((int(found.group()), row["cpu"]))
    for key, points in families.items():
        points = sorted(point for point in points if point[0] > 0)
        if len(points) < 2:
            continue
        steps = [
            f"{n} {seconds / FRAME:.3g}"
            + (f" (^{math.log(max(seconds, 1e-9) / max(before[1], 1e-9)) / math.log(n / before[0]):.2f})" if before else "")
            for before, (n, seconds) in zip([None, *points], points)
        ]
        print(f"{key}: " + ", ".join(steps))


def all_rows(asked):
    rows = {}
    display = "DISPLAY" in os.environ
    hand = os.path.abspath(os.path.join(asked.build, "bench_window"))
    for program, arguments in (("bench", []), ("bench_stash", []), ("bench_window", [BLENDS])):
        path = os.path.join(asked.build, program)
        if not os.path.exists(path) or (program == "bench_window" and not display):
            print(f"{program}: not built or no display", file=sys.stderr)
            continue
        rows.update(rows_of(path, arguments, asked.only))
    program = os.path.abspath(os.path.join(asked.build, "battwright"))
    if os.path.exists(program):
        with tempfile.TemporaryDirectory(prefix="battwright-bench-") as folder:
            commands = Commands(program, folder, asked.only)
            with contextlib.suppress(KeyboardInterrupt):
                commands.stashes([10, 100, 1000] + ([] if asked.quick else [10000]))
                commands.cards([1, 50] + ([] if asked.quick else [200]))
                if display:
                    commands.window(hand)
            rows.update(commands.rows)
    return rows


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("build")
    parser.add_argument("-o", "--output")
    parser.add_argument("--compare", metavar="OLD.json")
    parser.add_argument("--only", default="")
    parser.add_argument("--slower", type=float, default=1.25)
    parser.add_argument("--wall", action="store_true")
    parser.add_argument("--quick", action="store_true")
    asked = parser.parse_args()
    by = "seconds" if asked.wall else "cpu"
    old = {}
    if asked.compare:
        with open(asked.compare, encoding="utf-8") as file:
            old = json.load(file)
    rows = all_rows(asked)
    if not rows:
        sys.exit("no rows: build the targets bench, bench_stash and battwright first, or look at --only")
    print_rows(rows, old, by)
    print("\ngrowth, processor time in frames, with the exponent of each step:")
    print_growth(rows)
    if asked.output:
        with open(asked.output, "w", encoding="utf-8") as file:
            json.dump(rows, file, indent=1)
    code = 0
    search = os.path.join(asked.build, "bench_solve")
    if os.path.exists(search) and not asked.only and not asked.quick:
        print("\nthe search against NLopt's methods in equal time:", flush=True)
        code = subprocess.run([search], check=False).returncode
    # A short command is the machine's to start: no more than noise.
    slower = [name for name in rows if old.get(name, {}).get(by) and rows[name][by] > asked.slower * old[name][by]
              and (not name.startswith("battwright/") or rows[name][by] > SMALLEST_CPU)]
    for name in slower:
        print(f"slower: {name}, {rows[name][by] / old[name][by]:.2f} times")
    if asked.compare:
        print(f"{len(slower)} of {sum(name in old for name in rows)} rows are slower than before by more than "
              f"{asked.slower:g}")
    sys.exit(1 if slower else code)


if __name__ == "__main__":
    main()
