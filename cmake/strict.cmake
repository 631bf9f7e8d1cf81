# Warnings of the project's own programs. An internal target that nothing installed ever mentions.
# Errors for us, because a library that warns in its user's build has already failed there.
add_library(rackwork_strict INTERFACE)
target_compile_features(rackwork_strict INTERFACE cxx_std_20)
target_compile_options(rackwork_strict INTERFACE
    "$<$<CXX_COMPILER_ID:GNU,Clang,AppleClang>:-Wall;-Wextra;-Wpedantic;-Wconversion;-Wshadow;-Wsign-conversion;-Werror>"
    "$<$<CXX_COMPILER_ID:MSVC>:/W4;/WX;/permissive->")
