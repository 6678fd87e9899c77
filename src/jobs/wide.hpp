// Loops over numbers that lie side by side.
#pragma once

// On a function with such loops: compiled a second time for AVX2, and the one that fits the machine is chosen
// when the program starts. The digits are the same: each number is worked out by itself, in the order
// written, and nothing is fused (-ffp-contract=off). Sanitisers and Clang (the browser's, too) have it
// compiled once.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_THREAD__) && \
    !defined(__SANITIZE_ADDRESS__)
#define BATTWRIGHT_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define BATTWRIGHT_WIDE
#endif
