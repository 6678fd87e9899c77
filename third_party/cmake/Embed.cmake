# battwright_embed(OUT_VAR SYMBOL FILE...): a C++ source that holds the files' bytes, one after another, as
# `const unsigned char SYMBOL[]` and `const std::size_t SYMBOL_size`, in namespace battwright::embedded.
function(battwright_embed out_var symbol)
  string(JOIN "|" files ${ARGN})
  set(source ${CMAKE_CURRENT_BINARY_DIR}/embedded_${symbol}.cpp)
  add_custom_command(
    OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DSYMBOL=${symbol} -DINPUT=${files} -DOUTPUT=${source}
            -P ${CMAKE_SOURCE_DIR}/third_party/cmake/EmbedFile.cmake
    DEPENDS ${ARGN} ${CMAKE_SOURCE_DIR}/third_party/cmake/EmbedFile.cmake
    VERBATIM)
  set(${out_var} ${source} PARENT_SCOPE)
endfunction()
