#!/usr/bin/env bash
# What cmake --install and cpack give. tests/install-checks.sh list names the checks, tests/install-checks.sh CHECK BUILD
# tries one on a built folder. The outside word is that of the desktop's, the manual's and Debian's own checkers.
set -euo pipefail
cd "$(dirname "$0")/.."
build=$(realpath "${2:-build}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export LC_ALL=C.UTF-8
unset DISPLAY WAYLAND_DISPLAY  # with one, the program opens its window and waits for somebody

staged() { DESTDIR="$work/stage" cmake --install "$build" --component program --prefix /usr >"$work/log" || { cat "$work/log"; return 1; }; }
at() { echo "$work/stage/usr/$1"; }

desktop_entry() {
    staged
    desktop-file-validate "$(at share/applications/battwright.desktop)"
}
metainfo() {
    staged
    # Accepted: the name is no web address turned round, since there is none to turn.
    appstreamcli validate --no-net "$(at share/metainfo/battwright.metainfo.xml)" >"$work/said" || true
    cat "$work/said"
    ! grep -E '^ *[EW]: ' "$work/said" | grep -v cid-desktopapp-is-not-rdns
    grep -q -E 'Validation (was successful|failed: warnings: 1$)' "$work/said"
}
# Only NAME.batt.toml is claimed; other TOML stays what it was (shared-mime-info's own table).
mime_type() {
    staged
    mkdir -p "$work/stage/usr/share/mime/packages"
    cp /usr/share/mime/packages/freedesktop.org.xml "$work/stage/usr/share/mime/packages/"
    update-mime-database "$work/stage/usr/share/mime"
    cp blends/dawn-tide.toml "$work/dawn-tide.batt.toml"
    cp blends/dawn-tide.toml "$work/dawn-tide.toml"
    local type
    for name in dawn-tide.batt.toml dawn-tide.toml; do
        type=$(XDG_DATA_DIRS="$work/stage/usr/share" XDG_DATA_HOME="$work/none" gio info -a standard::content-type "$work/$name" | sed -n 's/.*content-type: //p')
        echo "$name: $type"
        case $name in
            *.batt.toml) [ "$type" = application/x-battwright-batt+toml ] ;;
            *) [ "$type" = application/toml ] ;;
        esac
    done
}
manual() {
    staged
    man --warnings -E UTF-8 -l -Tutf8 -Z "$(at share/man/man1/battwright.1.gz)" 2>"$work/warnings" >/dev/null
    cat "$work/warnings"
    [ ! -s "$work/warnings" ]
    lexgrog "$(at share/man/man1/battwright.1.gz)"
    # The text is that of --help: every option of every command that --help names is in the page.
    MANWIDTH=200 man -l "$(at share/man/man1/battwright.1.gz)" | col -b >"$work/page"
    "$build/battwright" --help | sed -n '/^Subcommands:/,/^$/s/^  \([a-z]*\) .*/\1/p' >"$work/commands"
    [ "$(wc -l <"$work/commands")" -gt 5 ]
    while read -r command; do
        "$build/battwright" "$command" --help | sed -n -E '/^Options:/,/^$/s/^ +(-[^ ]+) .*/\1/p' | tr , '\n' | while read -r option; do
            grep -q -F -- "$option" "$work/page" || { echo "$command $option is not in the manual"; exit 1; }
        done
    done <"$work/commands"
}
completion() {
    staged
    bash -n "$(at share/bash-completion/completions/battwright)"
    cp blends/dawn-tide.toml "$work/a batt.toml"
    (
        cd "$work"
        set +eu
        . "$work/stage/usr/share/bash-completion/completions/battwright"
        complete_words() { COMP_WORDS=(battwright "$@") COMP_CWORD=$#; _battwright; printf '%s\n' "${COMPREPLY[@]}"; }
        complete_words for | grep >/dev/null -x forecast || exit 1
        complete_words stash ske | grep >/dev/null -x skein || exit 2
        complete_words strip --wi | grep >/dev/null -x -- --width || exit 3
        complete_words --example kel | grep >/dev/null -x kelp-and-brass || exit 4
        complete_words forecast a | grep >/dev/null -x 'a batt.toml' || exit 5
        ! complete_words forecast --wid | grep . || exit 6
    )
}
# The small pictures are the drawing at their size (rsvg-convert's rendering; 1 in 255 a channel for its versions).
icons() {
    local size off
    for size in 16 22 24 32 48 64 128 256; do
        rsvg-convert -w "$size" -h "$size" src/install/battwright.svg -o "$work/$size.png"
        off=$(compare -metric MAE "src/install/icons/$size.png" "$work/$size.png" null: 2>&1 | sed 's/.*(\(.*\))/\1/') || true
        echo "$size px: $off"
        awk -v off="$off" 'BEGIN { exit !(off != "" && off + 0 < 1 / 255) }'
    done
}
# Installed and taken away by its own list, nothing stays; an installed program needs nothing of the tree.
installed_tree() {
    staged
    "$(at bin/battwright)" --version
    (cd "$work" && "$(at bin/battwright)" --example gull-speckle </dev/null >/dev/null && cmp gull-speckle.batt.toml "$(at share/doc/battwright/examples/gull-speckle.batt.toml)")
    xargs -d '\n' rm <<<"$(sed 's/\r//' "$build/install_manifest_program.txt" | sed "s|^|$work/stage|")"
    [ -z "$(find "$work/stage" -type f)" ]
}
# A place with no room, or none to write to, is told of before the first file is laid.
no_room() {
    mkdir "$work/small"
    mount -t tmpfs -o size=1m tmpfs "$work/small"
    local code=0
    cmake --install "$build" --component program --prefix "$work/small" >"$work/log" 2>&1 || code=$?
    local left
    left=$(find "$work/small" -type f)
    umount "$work/small"
    cat "$work/log"
    [ "$code" -ne 0 ] && [ -z "$left" ] && tr -s ' \n' ' ' <"$work/log" | grep >/dev/null 'MB free and Battwright needs'
}
# The .deb, made where it cannot be taken for the one of the build folder.
deb() {
    (cd "$build" && cpack -G DEB -B "$work/out" >"$work/log" 2>&1) || { cat "$work/log"; return 1; }
    local file
    file=$(ls "$work"/out/battwright_*_amd64.deb)
    mkdir -p "$build/package"
    cp "$file" "$build/package/"
    dpkg-deb -I "$file"
    dpkg-deb -c "$file" | awk '{ print $1, $2, $6 }'
    ! dpkg-deb -c "$file" | grep -E '/include/|\.a$|/test_'
    dpkg-deb -f "$file" Depends | grep >/dev/null 'libc6 .*libgl1-mesa-dri\|libgl1-mesa-dri.*libc6'
    # Errors fail; what only warns is shown.
    lintian --fail-on error --allow-root "$file"
}
# Root only: where there is no compiler it goes in, runs, opens its window, goes out and leaves nothing.
bare_package() { tests/bare-machine.sh package "$(ls "$build"/package/battwright_*_amd64.deb)"; }

checks=$(sed -n 's/^\([a-z_]*\)() {.*/\1/p' "$0" | grep -v -x -E 'staged|at')
if [ "${1:-}" = list ]; then
    echo "$checks"
elif grep -q -x -F -- "${1:-}" <<<"$checks"; then
    "$1"
else
    echo "install-checks: say list, or one of ${checks//$'\n'/ } and a build folder" >&2
    exit 2
fi
