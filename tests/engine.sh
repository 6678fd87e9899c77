#!/usr/bin/env bash
# engine.sh BUILD: installs the engine from BUILD into a folder of its own, builds the program of tests/consumer
# against that folder alone, and holds its answers for every example against the command line's.
set -euo pipefail
cd "$(dirname "$0")/.."
build=$1
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
cmake --install "$build" --component engine --prefix "$place/usr" >/dev/null
[ ! -e "$place/usr/bin" ] || { echo "the engine brings a program"; exit 1; }
[ ! -e "$place/usr/include/battwright/carding/refold.hpp" ] || { echo "an inside header is laid out"; exit 1; }
! grep -rq "$PWD" "$place/usr/lib" --include='*.cmake' || { echo "the package names the folder it was built from"; exit 1; }
cp -r tests/consumer "$place/consumer"
cmake -S "$place/consumer" -B "$place/made" -DCMAKE_PREFIX_PATH="$place/usr" -DCMAKE_BUILD_TYPE=Debug >/dev/null
cmake --build "$place/made" >/dev/null
for recipe in blends/*.toml; do
    read -r grams colour metres < <("$place/made/consumer" "$recipe")
    json=$("$build/battwright" forecast "$recipe" --json)
    for figure in "\"total_g\": $grams" "\"srgb\": $colour" "\"length_m\": $metres"; do
        key=${figure%%:*}
        value=${figure#*: }
        # JSON has twelve digits.
        awk -v key="$key" -v value="$value" '
            function told(number) { return sprintf("%.12g", number) }
            index($0, key ":") { v = $2; gsub(/[",]/, "", v); if (v == value || value + 0 != 0 && told(v) == told(value)) good = 1 }
            END { exit !good }' <<<"$json" || { echo "$recipe: $key is not $value"; exit 1; }
    done
done
code=0
"$place/made/consumer" "$place/none.toml" 2>"$place/said" || code=$?
[ "$code" = 2 ] && [ "$(wc -l <"$place/said")" = 1 ] || { echo "a missing recipe is not one line and 2"; exit 1; }
