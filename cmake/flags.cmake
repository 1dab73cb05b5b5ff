# One interface target carries what every target of the project is built with.
add_library(weatherstruck_flags INTERFACE)
target_compile_features(weatherstruck_flags INTERFACE cxx_std_20)
set(CMAKE_CXX_EXTENSIONS OFF)

set(warnings -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wnon-virtual-dtor
    -Wold-style-cast -Wcast-align -Woverloaded-virtual -Wnull-dereference -Wdouble-promotion
    -Wformat=2 -Wimplicit-fallthrough -Wextra-semi)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  list(APPEND warnings -Wduplicated-cond -Wduplicated-branches -Wlogical-op -Wuseless-cast)
endif()
if(PROJECT_IS_TOP_LEVEL)
  list(APPEND warnings -Werror)
endif()
target_compile_options(weatherstruck_flags INTERFACE ${warnings})

# Determinism: the same source gives the same doubles with g++ and clang.
target_compile_options(weatherstruck_flags INTERFACE -ffp-contract=off -fno-fast-math)

if(WEATHERSTRUCK_HARDEN)
  target_compile_options(weatherstruck_flags INTERFACE -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2
    -D_GLIBCXX_ASSERTIONS -fstack-protector-strong -fstack-clash-protection -fcf-protection -fPIE)
  target_link_options(weatherstruck_flags INTERFACE -pie -Wl,-z,relro,-z,now,-z,noexecstack)
endif()
if(WEATHERSTRUCK_SANITIZE)
  # The manual of g++ warns that sanitizers make -Wmaybe-uninitialized cry wolf; the other presets keep it.
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    target_compile_options(weatherstruck_flags INTERFACE -Wno-maybe-uninitialized)
  endif()
  target_compile_options(weatherstruck_flags INTERFACE -fsanitize=${WEATHERSTRUCK_SANITIZE}
    -fno-omit-frame-pointer -fno-sanitize-recover=all)
  target_link_options(weatherstruck_flags INTERFACE -fsanitize=${WEATHERSTRUCK_SANITIZE})
endif()
