// Where this checkout and its program lie. Known to one source alone, so that a test's object file is the
// same wherever the checkout is.
#pragma once

#include <string>

namespace battwright::testing {

std::string source_dir();  // the top of the checkout
std::string program();     // the built command line

}  // namespace battwright::testing
