#!/usr/bin/env bash
# Does install.sh name what a build reads?   third_party/install.sh --list | tests/packages-named.sh BUILD TARGET
# Every system header, library and data file that TARGET of the Ninja folder BUILD reads must belong to a package named
# on standard input, to one that these depend on, or to the base system. Says which do not, and then fails.
set -euo pipefail
build=$1
target=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export LC_ALL=C

# The headers are in Ninja's log of dependencies, libraries and data (fonts) in the lines of build.ninja.
ninja -C "$build" -t inputs "$target" >"$work/inputs"
grep '\.o$' "$work/inputs" >"$work/objects"
mapfile -t objects <"$work/objects"
ninja -C "$build" -t deps "${objects[@]}" >"$work/deps"
if grep -q 'deps not found' "$work/deps"; then
    echo "packages-named: $(grep -c 'deps not found' "$work/deps") objects of $build are not built: build $target first"
    exit 2
fi
ninja -C "$build" -t commands "$target" >"$work/commands"
{
    sed -n 's/^    //p' "$work/deps"
    cat "$work/inputs"
    tr ' ' '\n' <"$work/commands" | sed -n -E 's/^(-l[A-Za-z0-9_+.-]+)$/\1/p' | sort -u | while read -r library; do
        g++ -print-file-name="lib${library#-l}.so"
    done
} | grep -E '^/(usr/(include|lib|share)|lib)' | sort -u >"$work/read"
[ "$(wc -l <"$work/read")" -gt 100 ] || {
    echo "packages-named: only $(wc -l <"$work/read") system files read by $target of $build: has it been built with Ninja?"
    exit 2
}

# Owners. A path may lead through links, and the base system knows /usr/lib also as /lib.
while IFS= read -r path; do
    real=$(realpath -q "$path" || echo "$path")
    printf '%s\t%s\t%s\t%s\t%s\n' "$path" "$path" "$real" "${real#/usr}" "${path#/usr}"
done <"$work/read" >"$work/names"
cut -f 2- "$work/names" | tr '\t' '\n' | sort -u | xargs dpkg -S 2>/dev/null >"$work/owners" || true

# What the named packages bring: the first alternative of each dependency, and whoever provides a virtual one.
dpkg-query -W -f='${Package}\t${Essential}\t${Priority}\t${Pre-Depends}, ${Depends}\t${Provides}\t${db:Status-Abbrev}\n' >"$work/installed"
awk -F '\t' -v named=/dev/stdin '
    function bare(text) { sub(/[ (:].*/, "", text); return text }
    function add(name) { if (name != "" && !(name in brought)) { brought[name] = 1; queue[++last] = name } }
    FILENAME == ARGV[1] {
        if ($6 !~ /^ii/) next
        depends[$1] = depends[$1] ", " $4
        n = split($5, list, /, */)
        for (i = 1; i <= n; i++) providers[bare(list[i])] = providers[bare(list[i])] " " $1
        if ($2 == "yes" || $3 == "required") base[$1] = 1
        next
    }
    END {
        while ((getline line < named) > 0) add(line)
        for (name in base) add(name)
        for (at = 1; at <= last; at++) {
            n = split(depends[queue[at]], list, /, */)
            for (i = 1; i <= n; i++) {
                m = split(list[i], choice, / *\| */)
                for (c = 1; c <= m; c++) {
                    name = bare(choice[c])
                    if (name in depends) { add(name); break }
                    if (name in providers) {
                        k = split(providers[name], who, " ")
                        for (j = 1; j <= k; j++) add(who[j])
                        break
                    }
                }
            }
        }
        for (name in brought) print name
    }' "$work/installed" >"$work/brought"

awk -F '\t' '
    FILENAME == ARGV[1] { brought[$1] = 1; next }
    FILENAME == ARGV[2] {
        split($0, part, ": ")
        n = split(part[1], list, /, */)
        for (i = 1; i <= n; i++) { sub(/:.*/, "", list[i]); owner[part[2]] = owner[part[2]] " " list[i] }
        next
    }
    {
        good = 0; who = ""
        for (f = 2; f <= NF; f++) {
            n = split(owner[$f], list, " ")
            for (i = 1; i <= n; i++) { if (list[i] in brought) good = 1; who = list[i] }
        }
        if (!good) { count[who]++; if (!(who in example)) example[who] = $1 }
    }
    END {
        for (who in count) {
            bad = 1
            printf "packages-named: install.sh does not name %s: %s", who == "" ? "the owner (no package) of" : who, example[who]
            if (count[who] > 1) printf " and %d more files", count[who] - 1
            print " is read by the build"
        }
        exit bad
    }' "$work/brought" "$work/owners" "$work/names"
