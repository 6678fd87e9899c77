#!/usr/bin/env python3
"""Every bench program's rows as ratios, and what they say about growth.

    tests/bench/run.py BUILD [-o NEW.json] [--compare OLD.json] [--only TEXT] [--slower 1.25]

BUILD is a build folder with the targets bench, bench_stash and, where there is a display, bench_window. A row is
its time over one frame at 60 Hz; where the program says so also over one reading and writing of its memory. Rows
that differ in a number alone give a growth line: the exponent of time over that number. With --compare each row
is held against the same row of a file that an earlier run wrote on this machine, and the exit code is 1 when one
takes `--slower` times as long. bench_solve, which holds the search against NLopt's methods in equal time, speaks
for itself: its exit code counts, too."""

import argparse
import json
import math
import os
import re
import subprocess
import sys

FRAME = 1.0 / 60.0
SECONDS = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1.0}


def rows_of(program, arguments, only):
    """{name: {"seconds": ..., "of_memory": ...}} of one Google Benchmark program."""
    command = [program, *arguments, "--benchmark_format=json"]
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
        kept = {"seconds": row["real_time"] * SECONDS[row["time_unit"]]}
        if "of_memory" in row:
            kept["of_memory"] = row["of_memory"]
        rows[os.path.basename(program) + "/" + row["name"].replace("/real_time", "")] = kept
    return rows


def print_rows(rows, old):
    print(f"{'row':58} {'of frame':>9} {'of memory':>9} {'of old':>7}")
    for name, row in rows.items():
        memory = f"{row['of_memory']:9.1f}" if "of_memory" in row else " " * 9
        before = f"{row['seconds'] / old[name]['seconds']:7.2f}" if name in old else " " * 7
        print(f"{name:58} {row['seconds'] / FRAME:9.4f} {memory} {before}")


def print_growth(rows):
    """Rows that are the same but for one number, smallest to largest: the exponent of each step."""
    families = {}
    for name, row in rows.items():
        for found in re.finditer(r"(?<=[/:])\d+", name):
            key = name[: found.start()] + "N" + name[found.end() :]
            families.setdefault(key, []).append((int(found.group()), row["seconds"]))
    for key, points in families.items():
        points = sorted(point for point in points if point[0] > 0)
        if len(points) < 2:
            continue
        steps = [
            f"{n} {seconds / FRAME:.3g}"
            + (f" (^{math.log(seconds / before[1]) / math.log(n / before[0]):.2f})" if before else "")
            for before, (n, seconds) in zip([None, *points], points)
        ]
        print(f"{key}: " + ", ".join(steps))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("build")
    parser.add_argument("-o", "--output")
    parser.add_argument("--compare", metavar="OLD.json")
    parser.add_argument("--only", default="")
    parser.add_argument("--slower", type=float, default=1.25)
    asked = parser.parse_args()
    old = {}
    if asked.compare:
        with open(asked.compare, encoding="utf-8") as file:
            old = json.load(file)
    root = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
    rows = {}
    for program, arguments in (("bench", []), ("bench_stash", []), ("bench_window", [os.path.join(root, "blends")])):
        path = os.path.join(asked.build, program)
        if not os.path.exists(path) or (program == "bench_window" and "DISPLAY" not in os.environ):
            print(f"{program}: not built or no display", file=sys.stderr)
            continue
        rows.update(rows_of(path, arguments, asked.only))
    if not rows:
        sys.exit("no rows: build the targets bench and bench_stash first, or look at --only")
    print_rows(rows, old)
    print("\ngrowth, in frames, with the exponent of each step:")
    print_growth(rows)
    code = 0
    search = os.path.join(asked.build, "bench_solve")
    if os.path.exists(search) and not asked.only:
        print("\nthe search against NLopt's methods in equal time:")
        code = subprocess.run([search], check=False).returncode
    slower = [name for name in rows if name in old and rows[name]["seconds"] > asked.slower * old[name]["seconds"]]
    for name in slower:
        print(f"slower: {name}, {rows[name]['seconds'] / old[name]['seconds']:.2f} times")
    if asked.output:
        with open(asked.output, "w", encoding="utf-8") as file:
            json.dump(rows, file, indent=1)
    sys.exit(1 if slower else code)


if __name__ == "__main__":
    main()
