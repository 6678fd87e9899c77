#!/usr/bin/env bash
# Builds and runs every check: tests, the engine's tests under the sanitisers, a minute of fuzzing, layout.
# `tests/run.sh lint` adds clang-tidy over the source, which takes longer than all the rest, and
# `tests/run.sh threads` the worker threads under the thread sanitiser, which compiles the engine once more;
# `tests/run.sh wasm` the engine as WebAssembly, on a second compiler and standard library.
# Then what install.sh names, what cmake --install and cpack give, and bad ends of both (those need root).
# Ends with "N passed, N failed" and fails when anything did. Folders: build (release), build-sanitised, build-fuzz.
set -uo pipefail
cd "$(dirname "$0")/.."
passed=0
failed=0
skipped=
log=$(mktemp -d)
trap 'rm -rf "$log"; [ -z "${xvfb:-}" ] || kill "$xvfb" 2>/dev/null' EXIT

# check NAME COMMAND...: one thing that passes or fails, quiet when it passes; 3 says that it cannot be tried here.
check() {
    local name=$1 code=0 began=$SECONDS
    shift
    "$@" >"$log/out" 2>&1 </dev/null || code=$?
    name="$name  ($((SECONDS - began)) s)"
    if [ "$code" -eq 0 ]; then
        passed=$((passed + 1))
        echo "ok      $name"
    elif [ "$code" -eq 3 ]; then
        skipped=$((${skipped:-0} + 1))
        echo "SKIPPED $name"
        tail -n 5 "$log/out"
    else
        failed=$((failed + 1))
        echo "FAILED  $name"
        tail -n 60 "$log/out"
    fi
}

# run_one PROGRAM: its output whole in a file of its own, its exit code in another.
run_one() {
    "$1" >"$log/$(basename "$1").out" 2>&1
    echo $? >"$log/$(basename "$1").code"
}
export -f run_one
export log

# count_one PROGRAM: each of its cases counted.
count_one() {
    local out line good bad code
    out="$log/$(basename "$1").out"
    code=$(cat "$log/$(basename "$1").code")
    line=$(grep -a '\[doctest\] test cases:' "$out" | tail -n 1)
    if [ -z "$line" ]; then
        failed=$((failed + 1))
        echo "FAILED  $1 ended with code $code before its summary"
        tail -n 60 "$out"
        return
    fi
    good=$(sed -E 's/.*\| *([0-9]+) passed.*/\1/' <<<"$line")
    bad=$(sed -E 's/.*\| *([0-9]+) failed.*/\1/' <<<"$line")
    [ "$code" -ne 0 ] && [ "$bad" -eq 0 ] && bad=1
    passed=$((passed + good))
    failed=$((failed + bad))
    if [ "$bad" -gt 0 ]; then
        echo "FAILED  $1"
        tail -n 100 "$out"
    else
        echo "ok      $1: $good cases"
    fi
}

# doctests DIR: every test program of a build, as many at a time as there are cores, the largest first.
doctests() {
    local programs program
    mapfile -t programs < <(ls -S "$1"/test_* 2>/dev/null)
    printf '%s\0' "${programs[@]}" | xargs -0 -r -n 1 -P "$(nproc)" bash -c 'run_one "$1"' run_one
    for program in "${programs[@]}"; do count_one "$program"; done
}

display() {
    [ -n "${DISPLAY:-}" ] && return
    local n=90
    while [ -e "/tmp/.X$n-lock" ]; do n=$((n + 1)); done
    Xvfb ":$n" -noreset -screen 0 1920x1200x24 >/dev/null 2>&1 &
    xvfb=$!
    export DISPLAY=":$n"
    for _ in $(seq 50); do [ -e "/tmp/.X11-unix/X$n" ] && break; sleep 0.1; done
}

build() {  # DIR OPTIONS... A folder somebody has begun keeps its generator.
    local dir=$1
    shift
    [ -e "$dir/CMakeCache.txt" ] || set -- -G Ninja "$@"
    cmake -S . -B "$dir" "$@" && cmake --build "$dir" -j "$(nproc)"
}

fuzz() {
    local corpus="$log/corpus"
    mkdir -p "$corpus"
    cp blends/*.toml tests/recipe/broken/*.toml "$corpus"
    cmake -S . -B build-fuzz -G Ninja -DCMAKE_CXX_COMPILER=clang++ -DBATTWRIGHT_FUZZ=ON -DBATTWRIGHT_WINDOW=OFF \
        -DCMAKE_BUILD_TYPE=RelWithDebInfo &&
        cmake --build build-fuzz --target fuzz_recipe &&
        build-fuzz/fuzz_recipe -max_total_time=60 -timeout=5 -rss_limit_mb=2048 -max_len=8192 \
            -artifact_prefix="$log/" "$corpus"
}

lint() {  # Each source alone: clang-tidy looks for its own command.
    cmake -S . -B build-lint -G Ninja -DBATTWRIGHT_UNITY=OFF &&
        find src -name '*.cpp' | xargs -P "$(nproc)" -n 4 clang-tidy -p build-lint --quiet --extra-arg=-Wno-unknown-warning-option
}

layout() {
    find src tests -name '*.cpp' -o -name '*.hpp' | xargs clang-format --dry-run --Werror
}

# named COMMAND TARGET: install.sh COMMAND names what TARGET of the release build reads.
named() {
    third_party/install.sh --list "$1" | tests/packages-named.sh build "$2"
}

# missed PACKAGE: with PACKAGE taken out of the list, the same look finds that it is missing.
missed() {
    third_party/install.sh --list build | grep -v -x "$1" | tests/packages-named.sh build battwright >"$log/missed"
    [ "$?" -eq 1 ] && grep "does not name $1:" "$log/missed"
}

check "build (release)" build build -DBATTWRIGHT_TESTS=ON -DCMAKE_BUILD_TYPE=Release
display
doctests build
# Without the window: OpenGL drivers leak and compile code of their own.
check "build (sanitised)" build build-sanitised -DBATTWRIGHT_TESTS=ON -DBATTWRIGHT_SANITISE=ON -DBATTWRIGHT_WINDOW=OFF -DCMAKE_BUILD_TYPE=RelWithDebInfo
export ASAN_OPTIONS=detect_leaks=1:abort_on_error=1 UBSAN_OPTIONS=print_stacktrace=1
export LSAN_OPTIONS="suppressions=$PWD/tests/leaks-of-libraries.txt:print_suppressions=0"
BATTWRIGHT_SANITISED=1 doctests build-sanitised
check "fuzz: a minute of broken recipes" fuzz
check "layout (clang-format)" layout
check "install.sh names what the program's build reads" named build battwright
check "install.sh tests names what the tests' build reads" named tests all
for package in libnlopt-cxx-dev libglfw3-dev fonts-lato; do check "a list without $package is found out" missed "$package"; done
check "the engine as a library: another program built on it" tests/engine.sh build
check "what --json says is as --schema says" tests/schemas.sh build
for one in $(tests/install-checks.sh list); do check "installing: ${one//_/ }" tests/install-checks.sh "$one" build; done
for one in $(tests/bad-ends.sh list); do check "bad end: ${one//_/ }" tests/bad-ends.sh "$one"; done
for extra in "$@"; do
    case $extra in
        lint) check "lint (clang-tidy)" lint ;;
        wasm) check "as WebAssembly the engine says the same" tests/wasm.sh build ;;
        threads) check "the worker threads (thread sanitiser)" tests/threads.sh ;;
    esac
done

[ -z "${BATTWRIGHT_NOTICE:-}" ] || printf '\n*** %s ***\n\n' "$BATTWRIGHT_NOTICE"
echo "$passed passed, $failed failed${skipped:+, $skipped skipped}"
[ "$failed" -eq 0 ]
