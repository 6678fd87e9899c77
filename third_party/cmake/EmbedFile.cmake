string(REPLACE "|" ";" INPUT "${INPUT}")
set(bytes "")
foreach(one IN LISTS INPUT)
  file(READ ${one} part HEX)
  string(APPEND bytes "${part}")
endforeach()
string(REGEX REPLACE "(..)" "0x\\1," bytes "${bytes}")
string(REGEX REPLACE "(....................................................................................................)" "\\1\n" bytes "${bytes}")
file(WRITE ${OUTPUT} "#include <cstddef>\nnamespace battwright::embedded {\n"
  "extern const unsigned char ${SYMBOL}[];\nextern const std::size_t ${SYMBOL}_size;\n"
  "const unsigned char ${SYMBOL}[] = {${bytes}0x00};\n"
  "const std::size_t ${SYMBOL}_size = sizeof ${SYMBOL} - 1;\n}  // namespace battwright::embedded\n")
