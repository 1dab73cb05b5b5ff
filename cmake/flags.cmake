# One interface target carries what every target of the project is built with.
add_library(weatherstruck_flags INTERFACE)
target_compile_features(weatherstruck_flags INTERFACE cxx_std_20)
set(CMAKE_CXX_EXTENSIONS OFF)

# In a batch, one source's local hides another's of its own, which hides nothing from anybody.
set(shadow "$<$<NOT:$<BOOL:$<TARGET_PROPERTY:UNITY_BUILD>>>:-Wshadow>")
set(warnings -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion ${shadow} -Wnon-virtual-dtor
    -Wold-style-cast -Wcast-align -Woverloaded-virtual -Wdouble-promotion
    -Wformat=2 -Wimplicit-fallthrough -Wextra-semi)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  list(APPEND warnings -Wduplicated-cond -Wduplicated-branches -Wlogical-op -Wuseless-cast)
  if(CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
    # g++ 12 sees overlaps in "literal" + std::string that are not there (GCC bug 105651).
    list(APPEND warnings -Wno-restrict)
  endif()
endif()
if(PROJECT_IS_TOP_LEVEL)
  list(APPEND warnings -Werror)
endif()
target_compile_options(weatherstruck_flags INTERFACE ${warnings})

# Once g++ 12 optimises hard or sanitizes, it calls members of std::variant uninitialized and empty vectors null
# (its manual warns of false alarms beside sanitizers). The dev preset, which does neither, keeps both warnings.
set(false_alarms)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  set(false_alarms -Wno-maybe-uninitialized -Wno-null-dereference)
endif()
if(NOT CMAKE_BUILD_TYPE STREQUAL "Debug")
  target_compile_options(weatherstruck_flags INTERFACE ${false_alarms})
endif()

# Determinism: the same source gives the same doubles with g++ and clang.
target_compile_options(weatherstruck_flags INTERFACE -ffp-contract=off -fno-fast-math)

if(WEATHERSTRUCK_HARDEN)
  # The engine does without the watch on bounds: what a stranger wrote reaches it only through faults_of() and the
  # makers of clocks, which check it, and the sanitizers' presets watch them in its tests. A fifth of a plan's
  # instructions were that (callgrind: 26.1 to 21.1 thousand million for 20,000 schedules and 500 weathers).
  set(bounds "$<$<NOT:$<STREQUAL:$<TARGET_PROPERTY:NAME>,ws_engine>>:-D_GLIBCXX_ASSERTIONS>")
  target_compile_options(weatherstruck_flags INTERFACE -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2
    ${bounds} -fstack-protector-strong -fstack-clash-protection -fcf-protection -fPIE)
  target_link_options(weatherstruck_flags INTERFACE -pie -Wl,-z,relro,-z,now,-z,noexecstack)
endif()

# What is watched by sanitizers: the floors and the program. The tests themselves are compiled as in the dev preset,
# so that ccache has them already: with them compiled again, watched, this step took 42 of a whole run's 82 minutes.
# Their reads and writes through the floors, and what they leave unfreed, are still seen. Threads are another matter:
# the thread sanitizer must see every lock there is.
add_library(weatherstruck_watched INTERFACE)
target_link_libraries(weatherstruck_watched INTERFACE weatherstruck_flags)
if(WEATHERSTRUCK_SANITIZE)
  target_compile_options(weatherstruck_watched INTERFACE -fsanitize=${WEATHERSTRUCK_SANITIZE} -D_GLIBCXX_ASSERTIONS
    -fno-omit-frame-pointer -fno-sanitize-recover=all ${false_alarms})
  target_link_options(weatherstruck_flags INTERFACE -fsanitize=${WEATHERSTRUCK_SANITIZE})
endif()
