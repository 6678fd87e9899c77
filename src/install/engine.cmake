# The engine as a library: cmake --install BUILD --component engine lays its static libraries, its public headers
# under include/battwright and a package file, for find_package(battwright) and battwright::engine.
include(GNUInstallDirs)
set(rooms text jobs measure toml fibre colour recipe staple yarn carding forecast stash solve shelving strip card)
list(TRANSFORM rooms PREPEND battwright_ OUTPUT_VARIABLE targets)
set_target_properties(battwright_engine PROPERTIES EXPORT_NAME engine)
set(package ${CMAKE_INSTALL_LIBDIR}/cmake/battwright)
install(TARGETS battwright_engine battwright_options ${targets} EXPORT battwright
        ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}/battwright COMPONENT engine EXCLUDE_FROM_ALL)
install(EXPORT battwright NAMESPACE battwright:: DESTINATION ${package} FILE battwright-targets.cmake
        COMPONENT engine EXCLUDE_FROM_ALL)

# Headers that begin with "Inside this room" are nobody else's.
foreach(room ${rooms})
  file(GLOB headers CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${room}/*.hpp)
  foreach(header ${headers})
    file(STRINGS ${header} first LIMIT_COUNT 1)
    if(NOT first MATCHES "Inside this room")
      install(FILES ${header} DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/battwright/${room} COMPONENT engine EXCLUDE_FROM_ALL)
    endif()
  endforeach()
endforeach()
install(FILES engine.hpp DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/battwright COMPONENT engine EXCLUDE_FROM_ALL)

include(CMakePackageConfigHelpers)
write_basic_package_version_file(${CMAKE_CURRENT_BINARY_DIR}/battwright-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES install/battwright-config.cmake ${CMAKE_CURRENT_BINARY_DIR}/battwright-config-version.cmake
              ${CMAKE_SOURCE_DIR}/third_party/cmake/FindStb.cmake
        DESTINATION ${package} COMPONENT engine EXCLUDE_FROM_ALL)
