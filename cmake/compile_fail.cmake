# Compiles SOURCE twice with COMPILER: as it stands it must pass, with -DFORBIDDEN it must fail, and the fault
# must lie in SOURCE itself (so that a broken header does not count as a refusal).
#   cmake -DCOMPILER=g++ -DINCLUDE_DIR=include -DSOURCE=x.cpp -P compile_fail.cmake
get_filename_component(name "${SOURCE}" NAME)
set(command "${COMPILER}" -std=c++20 -fsyntax-only "-I${INCLUDE_DIR}")
set(ENV{LC_ALL} C)

execute_process(COMMAND ${command} "${SOURCE}" RESULT_VARIABLE result ERROR_VARIABLE errors)
if(NOT result EQUAL 0)
  message(FATAL_ERROR "${name} must compile as it stands, but does not:\n${errors}")
endif()

execute_process(COMMAND ${command} -DFORBIDDEN "${SOURCE}" RESULT_VARIABLE result ERROR_VARIABLE errors)
if(result EQUAL 0)
  message(FATAL_ERROR "${name} compiles with FORBIDDEN set: the compiler no longer refuses this mix-up")
endif()
string(FIND "${errors}" "${SOURCE}:" at)
if(at EQUAL -1 OR NOT errors MATCHES "${name}:[0-9]+:[0-9]+: error: ")
  message(FATAL_ERROR "${name} fails with FORBIDDEN set, but not by a fault of its own:\n${errors}")
endif()
