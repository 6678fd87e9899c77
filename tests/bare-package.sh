# Part of bare-machine.sh: a package where there is no compiler. Sourced, not run.

# what_lies: every file and folder of the root that the package may not leave behind (not the lists of apt and dpkg).
what_lies() {
    in_root "find / -xdev \( -path /proc -o -path /sys -o -path /tmp -o -path /root -o -path /var/cache -o -path /var/log -o -path /var/lib/apt -o -path /var/lib/dpkg \) -prune -o -print | sort"
}

run_package() {  # DEB
    local deb example=kelp-and-brass began=$SECONDS
    deb=$(basename "$1")
    cp "$1" "$root/root/$deb" || stop 3 "the package cannot be copied into the root: is the disk full?"
    expect "no compiler is here" "! command -v cc g++ c++ clang"
    # The base that the desktop's databases need, then the package's own dependencies, so that what is left is the package.
    expect "apt finds Debian" "apt-get update -q"
    [ "$failures" -eq 0 ] || stop 3 "the bare root reaches no packages: see to the network"
    expect "a desktop's databases" "apt-get install -y -q --no-install-recommends shared-mime-info desktop-file-utils hicolor-icon-theme man-db libglib2.0-bin"
    expect "its dependencies can be had" "apt-get install -y -q --no-install-recommends \$(dpkg-deb -f ~/$deb Depends | sed 's/([^)]*)//g; s/|[^,]*//g; s/,/ /g')"
    what_lies >"$place/before"
    expect "it installs" "apt-get install -y -q --no-install-recommends ~/$deb"
    expect "still no compiler" "! command -v cc g++ c++ clang"
    expect "battwright --version" "battwright --version | grep -x 'Battwright $(dpkg-deb -f "$1" Version)'"
    expect "an example is copied" "mkdir ~/batts && cd ~/batts && battwright --example $example && cmp $example.batt.toml /usr/share/doc/battwright/examples/$example.batt.toml"
    expect "and never over a file" "cd ~/batts && echo mine >$example.batt.toml && ! battwright --example $example && grep -qx mine $example.batt.toml && rm $example.batt.toml && battwright --example $example"
    expect "a forecast" "cd ~/batts && battwright forecast $example.batt.toml | grep >/dev/null 'Kelp and Brass'"
    expect "a card" "cd ~/batts && battwright card $example.batt.toml -o card.pdf && head -c 5 card.pdf | grep >/dev/null '%PDF-'"
    expect "a stash" "battwright stash add --name 'Gull fleece' --fibre corriedale --weight '240 g' && test -s ~/.local/share/battwright/stash.db"
    expect "the manual opens" "MANWIDTH=80 man battwright 2>&1 | grep >/dev/null 'drum carder'"
    expect "the desktop knows the file by its name" "gio info -a standard::content-type ~/batts/$example.batt.toml | grep >/dev/null application/x-battwright-batt+toml && gio info -a standard::content-type /usr/share/doc/battwright/examples/$example.batt.toml | grep >/dev/null x-battwright-batt && cp ~/batts/$example.batt.toml ~/other.toml && ! gio info -a standard::content-type ~/other.toml | grep x-battwright-batt"
    expect "and opens it with Battwright" "gio mime application/x-battwright-batt+toml | grep >/dev/null battwright.desktop"
    what_lies >"$place/with"
    expect "a display and eyes" "apt-get install -y -q --no-install-recommends xvfb xauth xdotool imagemagick"
    what_lies >"$place/with-display"
    expect "the window opens on it" "cd ~/batts && xvfb-run -a -s '-screen 0 1600x1000x24' bash -o pipefail -c 'battwright $example.batt.toml & app=\$!; for n in \$(seq 60); do xdotool search --name \"Kelp and Brass\" >/dev/null 2>&1 && break; sleep 1; done; sleep 10; xdotool search --name \"Kelp and Brass\" && import -window root ~/window.png; code=\$?; kill \$app; wait \$app; exit \$code' && identify -format '%w %k' ~/window.png | awk '{ good = \$1 == 1600 && \$2 > 500 } END { exit !good }'"
    expect "it is removed" "apt-get purge -y -q battwright"
    what_lies >"$place/after"
    # What the display brought is no matter of ours.
    comm -13 "$place/with" "$place/with-display" >"$place/displays"
    comm -13 "$place/before" "$place/after" | comm -23 - "$place/displays" >"$place/left"
    if [ -s "$place/left" ]; then
        say "FAILED  nothing is left behind"
        head -n 20 "$place/left" >&2
        failures=$((failures + 1))
    else
        say "ok      nothing is left behind"
    fi
    expect "nor in the desktop's databases" "! grep -r -i battwright /usr/share/applications /usr/share/mime /usr/share/icons /var/lib/dpkg/status"
    expect "but her own files are" "test -s ~/.local/share/battwright/stash.db && test -s ~/batts/$example.batt.toml"
    [ "$failures" -eq 0 ] || stop 1 "$failures checks of the package failed"
    say "the package went in, ran and went out; $((SECONDS - began)) s after the root was made"
}
