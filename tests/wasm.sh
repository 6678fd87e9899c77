#!/usr/bin/env bash
# tests/wasm.sh [BUILD] [DIR]: the engine on a second compiler and standard library. The rooms up to the forecast
# become WebAssembly (Debian's emscripten: clang and libc++; `third_party/install.sh wasm`) and foretell every
# example in node; BUILD/battwright (build) has to say the same, numbers to seven figures, all else to the letter.
# Takes some minutes the first time; DIR (build-wasm) keeps what was compiled.
set -euo pipefail
cd "$(dirname "$0")/.."
native=${1:-build}/battwright
out=${2:-build-wasm}
rooms="text jobs measure toml fibre colour recipe staple yarn carding forecast"
command -v em++ >/dev/null || { echo "wasm.sh: there is no em++ here: third_party/install.sh wasm"; exit 3; }
[ -x "$native" ] || { echo "wasm.sh: $native is missing: build it first"; exit 1; }

# Where em++'s own scripts find Debian's modules whichever node it is; Debian's looks there by itself.
export NODE_PATH=/usr/share/nodejs${NODE_PATH:+:$NODE_PATH}

# The libraries that are headers alone, without the rest of this machine's.
mkdir -p "$out/include"
for name in tl toml++ fmt nlohmann eigen3/Eigen; do ln -sfn "/usr/include/$name" "$out/include/$(basename "$name")"; done
flags=(-std=c++20 -O2 -ffp-contract=off -fexceptions -DFMT_HEADER_ONLY -DTOML_HEADER_ONLY=1 -Isrc "-I$out/include" -Wall -Wextra -Werror)

# compile NAME SOURCE...: one object of them all, if any file of src is newer than it.
compile() {
    local name=$1 source
    shift
    for source in "$@"; do echo "#include \"$source\""; done >"$out/$name.cpp.new"
    cmp -s "$out/$name.cpp.new" "$out/$name.cpp" || mv "$out/$name.cpp.new" "$out/$name.cpp"
    [ -e "$out/$name.o" ] && [ -z "$(find src tests/wasm "$out/$name.cpp" -newer "$out/$name.o" -type f -print -quit)" ] && return
    em++ "${flags[@]}" -I. -c "$out/$name.cpp" -o "$out/$name.o"
}

cmake -DSYMBOL=catalogue_toml -DINPUT="$(printf "%s|" "$PWD"/src/fibre/catalogue/*.toml | sed "s/|\$//")" -DOUTPUT="$out/catalogue.cpp" \
    -P third_party/cmake/EmbedFile.cmake
em++ "${flags[@]}" -c "$out/catalogue.cpp" -o "$out/catalogue.o"
for room in $rooms; do compile "$room" src/"$room"/*.cpp; done
compile json src/command/json{,_making,_value}.cpp tests/wasm/forecast.cpp
# Loaded at once: this em++ would ask fetch() for the file wherever there is one, and node has had one since 18.
em++ "${flags[@]}" -s NODERAWFS=1 -s WASM_ASYNC_COMPILATION=0 -s ALLOW_MEMORY_GROWTH=1 -s EXIT_RUNTIME=1 "$out"/*.o \
    -o "$out/forecast.js"

python3 - "$native" "$out/forecast.js" blends/*.toml <<'EOF'
import json, math, subprocess, sys

native, script, *recipes = sys.argv[1:]
figures, farthest = 0, 0.0
# The two C libraries differ in the last place of a power or a logarithm; a difference of two colours that are
# nearly alike keeps half the figures of that.
near = 1e-7

def differences(one, other, path):
    global figures, farthest
    if isinstance(one, dict) and isinstance(other, dict) and list(one) == list(other):
        return [d for key in one for d in differences(one[key], other[key], f"{path}.{key}")]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return [d for i in range(len(one)) for d in differences(one[i], other[i], f"{path}[{i}]")]
    if isinstance(one, float) and isinstance(other, (int, float)) or isinstance(other, float) and isinstance(one, int):
        figures += 1
        if abs(one - other) > 1e-12:
            farthest = max(farthest, abs(one - other) / max(abs(one), abs(other)))
        return [] if math.isclose(one, other, rel_tol=near, abs_tol=1e-12) else [f"{path}: {one!r} and {other!r}"]
    return [] if one == other else [f"{path}: {one!r} and {other!r}"]

def said(*command):
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"wasm.sh: {' '.join(command)} ended with {done.returncode}:\n{done.stderr[-2000:]}")
    return json.loads(done.stdout)

wrong = []
for recipe in recipes:
    here, there = said(native, "forecast", recipe, "--json"), said("node", script, recipe)
    wrong += differences(here, there, recipe)
print("\n".join(wrong[:40]))
if wrong or not recipes:
    sys.exit(f"wasm.sh: {len(wrong)} of {figures} figures differ")
print(f"{len(recipes)} examples, {figures} figures alike, none farther apart than {farthest:.1e} of itself")
EOF
