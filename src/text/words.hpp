// Words, lists and plurals. Letters are ASCII's; other bytes of UTF-8 are left as they are.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace battwright::text {

char lower(char c);
std::string lower(std::string_view text);
// "Blue faced" from "blue faced".
std::string capitalised(std::string text);
// The same but for case.
bool same_word(std::string_view a, std::string_view b);
// Without the spaces, tabs and line ends around it.
std::string_view trimmed(std::string_view text);
bool is_blank(std::string_view text);
// At most so many bytes from the front, no letter of UTF-8 cut in two.
std::string_view cut(std::string_view text, std::size_t most_bytes);
// What stands between blanks.
std::vector<std::string> split(std::string_view text);

// "a", "a and b", "a, b and c", with the joint named.
std::string listed(std::span<const std::string> words, std::string_view joint = "and");
// "1 pass", "3 passes".
std::string counted(std::int64_t count, std::string_view one, std::string_view many);
// A name fit to begin a file's: "Kelp & Brass" is "kelp-brass"; `otherwise` when nothing is left of it.
std::string file_stem(std::string_view name, std::string_view otherwise);

}  // namespace battwright::text
