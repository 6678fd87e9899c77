#include "text/believe.hpp"

#include <cstdio>
#include <cstdlib>

namespace battwright::text {

void broken_belief(const char* belief, const char* file, int line) {
    std::fprintf(stderr, "%s:%d: believed, and not so: %s\n", file, line, belief);
    std::abort();
}

}  // namespace battwright::text
