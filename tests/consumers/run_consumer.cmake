# Configures a consumer project from nothing, builds it, runs its program and compares what that says. Called with -P and
#   SOURCE, BINARY, GENERATOR, COMPILER   as usual
#   OPTIONS                               list of further -D options, separated by |
#   EXPECTED_OUTPUT                       what the program must print
#   REFUSED_BECAUSE                       if given: the configuration must fail, with a message that matches this
string(REPLACE "|" ";" options "${OPTIONS}")
file(REMOVE_RECURSE "${BINARY}")
unset(ENV{CXXFLAGS})

execute_process(
    COMMAND "${CMAKE_COMMAND}" -S "${SOURCE}" -B "${BINARY}" -G "${GENERATOR}" "-DCMAKE_CXX_COMPILER=${COMPILER}" ${options}
    RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
if(REFUSED_BECAUSE)
    # CMake breaks the lines of its messages.
    string(REGEX REPLACE "[ \n]+" " " one_line "${output}")
    if(status EQUAL 0)
        message(FATAL_ERROR "the configuration succeeds, and must not:\n${output}")
    elseif(NOT one_line MATCHES "${REFUSED_BECAUSE}")
        message(FATAL_ERROR "the configuration fails for another reason than '${REFUSED_BECAUSE}':\n${output}")
    endif()
    return()
endif()
if(NOT status EQUAL 0)
    message(FATAL_ERROR "the configuration fails:\n${output}")
endif()
if(output MATCHES "CMake (Deprecation )?Warning")
    message(FATAL_ERROR "the configuration warns:\n${output}")
endif()

execute_process(COMMAND "${CMAKE_COMMAND}" --build "${BINARY}"
    RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
if(NOT status EQUAL 0)
    message(FATAL_ERROR "the build fails:\n${output}")
endif()

execute_process(COMMAND "${BINARY}/consumer"
    RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE errors OUTPUT_STRIP_TRAILING_WHITESPACE)
if(NOT status EQUAL 0 OR NOT output STREQUAL EXPECTED_OUTPUT)
    message(FATAL_ERROR "the program ends with ${status} and prints '${output}${errors}', expected '${EXPECTED_OUTPUT}'")
endif()
