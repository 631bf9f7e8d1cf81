# The version is written once, in the header that ships with the library.

# Reads RACKWORK_VERSION_MAJOR, _MINOR and _PATCH from `header` and sets `result` to "major.minor.patch".
function(rackwork_read_version header result)
    # A change of the header must reach the package files without a fresh build directory.
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${header}")
    if(NOT EXISTS "${header}")
        message(FATAL_ERROR "The version header ${header} is missing.")
    endif()
    set(numbers "")
    foreach(part IN ITEMS MAJOR MINOR PATCH)
        set(pattern "^#define RACKWORK_VERSION_${part} ([0-9]+)$")
        file(STRINGS "${header}" lines REGEX "${pattern}")
        list(LENGTH lines count)
        if(NOT count EQUAL 1)
            message(FATAL_ERROR
                "${header} must define RACKWORK_VERSION_${part} as a plain number on exactly one line; found ${count}.")
        endif()
        string(REGEX REPLACE "${pattern}" "\\1" number "${lines}")
        list(APPEND numbers "${number}")
    endforeach()
    list(JOIN numbers "." version)
    set(${result} "${version}" PARENT_SCOPE)
endfunction()
