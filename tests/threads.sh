#!/usr/bin/env bash
# The worker threads under the thread sanitiser: the tests that wait for one, and random presses with all of them at
# work. `tests/threads.sh 40` does 40 presses a seed instead of 120. Ends with 0 when nothing was found.
# Run on request, since it compiles the engine once more.
set -euo pipefail
cd "$(dirname "$0")/.."
steps=${1:-120}
generator=()
[ -e build-threads/CMakeCache.txt ] || generator=(-G Ninja)
cmake -S . -B build-threads "${generator[@]}" -DBATTWRIGHT_TESTS=ON -DBATTWRIGHT_SANITISE_THREADS=ON \
    -DBATTWRIGHT_WINDOW=OFF -DCMAKE_BUILD_TYPE=RelWithDebInfo ${BATTWRIGHT_CMAKE:-}
cmake --build build-threads -j "${BATTWRIGHT_JOBS:-$(nproc)}" --target test_jobs test_app
export TSAN_OPTIONS=halt_on_error=1:second_deadlock_stack=1
build-threads/test_jobs
BATTWRIGHT_STEPS=$steps build-threads/test_app \
    -sf='*_worker_test*,*photo_loader_test*,*lot_photo_test*,*random_test*' -tce='every example*'
