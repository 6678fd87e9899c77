# Debian's static Dear ImGui holds the GLFW and OpenGL 3 backends and needs stb beside it.
find_path(ImGui_INCLUDE_DIR imgui.h PATH_SUFFIXES imgui)
find_library(ImGui_LIBRARY imgui)
find_library(ImGui_Stb_LIBRARY stb)
include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(ImGui REQUIRED_VARS ImGui_LIBRARY ImGui_Stb_LIBRARY ImGui_INCLUDE_DIR)
if(ImGui_FOUND AND NOT TARGET imgui::imgui)
  add_library(imgui::imgui UNKNOWN IMPORTED)
  set_target_properties(imgui::imgui PROPERTIES IMPORTED_LOCATION ${ImGui_LIBRARY}
    INTERFACE_INCLUDE_DIRECTORIES "${ImGui_INCLUDE_DIR};${ImGui_INCLUDE_DIR}/backends"
    INTERFACE_LINK_LIBRARIES "${ImGui_Stb_LIBRARY}")
endif()
mark_as_advanced(ImGui_INCLUDE_DIR ImGui_LIBRARY ImGui_Stb_LIBRARY)
