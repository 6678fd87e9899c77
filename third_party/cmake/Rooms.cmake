# battwright_room(NAME USES other rooms LINKS libraries): the static library of one folder under src/.
# Up to UNITY files of it are compiled as one (none: each alone).
# A room may only use the rooms it names, so a circle or a short cut fails to link.
function(battwright_room name)
  cmake_parse_arguments(ROOM "" "UNITY" "USES;LINKS;PRIVATE_LINKS;SOURCES" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*.cpp)
  list(TRANSFORM ROOM_USES PREPEND battwright_)
  if(NOT sources)
    add_library(battwright_${name} INTERFACE)
    target_link_libraries(battwright_${name} INTERFACE battwright_options ${ROOM_USES} ${ROOM_LINKS})
    return()
  endif()
  add_library(battwright_${name} STATIC ${sources} ${ROOM_SOURCES})
  if(BATTWRIGHT_UNITY AND ROOM_UNITY)
    set_target_properties(battwright_${name} PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE ${ROOM_UNITY})
  endif()
  target_link_libraries(battwright_${name} PUBLIC battwright_options ${ROOM_USES} ${ROOM_LINKS}
                                           PRIVATE ${ROOM_PRIVATE_LINKS})
endfunction()

# battwright_test(NAME LINKS libraries): the doctest program of tests/NAME/*.cpp.
function(battwright_test name)
  cmake_parse_arguments(TEST "" "" "LINKS" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*.cpp)
  if(NOT sources)
    return()
  endif()
  add_executable(test_${name} ${sources})
  target_include_directories(test_${name} PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
  target_link_libraries(test_${name} PRIVATE battwright_options ${TEST_LINKS} battwright_test_main doctest::doctest)
  add_test(NAME ${name} COMMAND test_${name})
endfunction()
