#define DOCTEST_CONFIG_IMPLEMENT_WITH_MAIN
#include <doctest/doctest.h>

#include "place.hpp"

namespace battwright::testing {

std::string source_dir() {
    return BATTWRIGHT_SOURCE_DIR;
}
std::string program() {
    return BATTWRIGHT_PROGRAM;
}

}  // namespace battwright::testing
