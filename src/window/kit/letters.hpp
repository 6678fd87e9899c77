// Letters that are not compiled in: those that names on show want, from the fonts of the machine.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace battwright::window {

// Unicode letters beyond those compiled in that texts want, ascending, each once; up to `most_letters`, and
// those of the first plane only, which is what ImGui draws.
class Letters {
  public:
    static constexpr std::size_t most_letters = 4000;
    // True when a letter of the text (UTF-8) is new.
    bool want(std::string_view text);
    const std::vector<char16_t>& wanted() const { return wanted_; }

  private:
    std::vector<char16_t> wanted_;
};

// Latin with its extensions, Greek, Cyrillic, general punctuation, fractions, arrows and minus.
bool is_compiled_in(char32_t letter);

// A font file of the machine and which of its faces.
struct SystemFont {
    std::string path;
    int face = 0;
    std::vector<char16_t> letters;  // of those asked for, what it holds
};
// Fonts that hold as many as can be of these letters, the fewest fonts first found; none where the machine
// has none.
std::vector<SystemFont> fonts_for(const std::vector<char16_t>& letters);

}  // namespace battwright::window
