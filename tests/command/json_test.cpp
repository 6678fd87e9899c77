// JSON is the same on every machine. The C library has several forms of its logarithms and powers, for
// processors with and without fused multiply-add, which differ in the last digit; GLIBC_TUNABLES chooses
// (glibc manual, 39.7).
#include <doctest/doctest.h>

#include <cstdlib>

#include "program.hpp"

using namespace program;

TEST_CASE("JSON has the same digits with and without fused multiply-add") {
    const Scratch scratch;
    for (const auto& entry : fs::directory_iterator(blends)) {
        const std::string file = "'" + entry.path().string() + "'";
        for (const std::string& words : {"forecast " + file, "scraps --total '30 g' --from " + file,
                                         "match '#607080' --total '30 g' --from " + file}) {
            CAPTURE(words);
            const Outcome usual = run(scratch, words + " --json");
            REQUIRE(usual.code != 2);
            REQUIRE(setenv("GLIBC_TUNABLES", "glibc.cpu.hwcaps=-AVX2,-FMA,-FMA4", 1) == 0);
            const Outcome plain = run(scratch, words + " --json");
            unsetenv("GLIBC_TUNABLES");
            CHECK(plain.out == usual.out);
        }
    }
}
