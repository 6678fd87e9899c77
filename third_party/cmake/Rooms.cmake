# Most of what a compiler reads is the standard library: many sources at once take a third of the time. Names in an
# anonymous namespace have to differ within a room, folders and all.
function(battwright_in_batches target)
  set_target_properties(${target} PROPERTIES UNITY_BUILD ${BATTWRIGHT_UNITY} UNITY_BUILD_BATCH_SIZE 32)
endfunction()

# battwright_room(NAME [PLAIN] [LOOPS] USES other rooms LINKS libraries): the static library of one folder under src/.
# Its sources are compiled in batches. PLAIN: it reads, asks and shows, and leaves the work to others, so that the
# costly optimisations only cost whoever builds it: it takes two thirds of the time without.
# LOOPS: its loops over numbers are worked on several numbers at a time. That takes a compiler that need not raise
# errno or a floating-point trap, which nobody reads here; no digit depends on it.
# A room may only use the rooms it names, so a circle or a short cut fails to link.
function(battwright_room name)
  cmake_parse_arguments(ROOM "PLAIN;LOOPS" "" "USES;LINKS;PRIVATE_LINKS;SOURCES" ${ARGN})
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*.cpp)
  list(TRANSFORM ROOM_USES PREPEND battwright_)
  if(NOT sources)
    add_library(battwright_${name} INTERFACE)
    target_link_libraries(battwright_${name} INTERFACE battwright_options ${ROOM_USES} ${ROOM_LINKS})
    return()
  endif()
  add_library(battwright_${name} STATIC ${sources} ${ROOM_SOURCES})
  battwright_in_batches(battwright_${name})
  if(ROOM_PLAIN AND CMAKE_BUILD_TYPE MATCHES "^Rel")
    target_compile_options(battwright_${name} PRIVATE -O1)
  endif()
  if(ROOM_LOOPS)
    target_compile_options(battwright_${name} PRIVATE -fno-math-errno -fno-trapping-math)
  endif()
  target_link_libraries(battwright_${name} PUBLIC battwright_options ${ROOM_USES} ${ROOM_LINKS}
                                           PRIVATE ${ROOM_PRIVATE_LINKS})
endfunction()

# battwright_test(NAME LINKS libraries): the doctest program of tests/NAME/*.cpp, in batches.
function(battwright_test name)
  cmake_parse_arguments(TEST "" "" "LINKS" ${ARGN})
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*.cpp)
  if(NOT sources)
    return()
  endif()
  add_executable(test_${name} ${sources})
  battwright_in_batches(test_${name})
  target_include_directories(test_${name} PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
  # What a test spends its time on is the engine: its own text is compiled in two thirds of the time without the rest.
  if(CMAKE_BUILD_TYPE MATCHES "^Rel")
    target_compile_options(test_${name} PRIVATE -O1)
  endif()
  target_link_libraries(test_${name} PRIVATE battwright_options ${TEST_LINKS} battwright_test_main doctest::doctest)
  add_test(NAME ${name} COMMAND test_${name})
endfunction()
