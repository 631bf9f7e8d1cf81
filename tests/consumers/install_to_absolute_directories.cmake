# Configures and installs the library with absolute directories for headers and data, each outside the prefix.
# Called with -P and LIBRARY_SOURCE, BUILD, GENERATOR, COMPILER, PREFIX.
file(REMOVE_RECURSE "${PREFIX}")
foreach(step IN ITEMS configure install)
    if(step STREQUAL "configure")
        set(command -S "${LIBRARY_SOURCE}" -B "${BUILD}" -G "${GENERATOR}" "-DCMAKE_CXX_COMPILER=${COMPILER}"
            "-DCMAKE_INSTALL_PREFIX=${PREFIX}/prefix" "-DCMAKE_INSTALL_INCLUDEDIR=${PREFIX}/headers"
            "-DCMAKE_INSTALL_DATADIR=${PREFIX}/data"
            -DRACKWORK_BUILD_TESTS=OFF -DRACKWORK_BUILD_BENCH=OFF -DRACKWORK_BUILD_EXAMPLES=OFF)
    else()
        set(command --install "${BUILD}")
    endif()
    execute_process(COMMAND "${CMAKE_COMMAND}" ${command}
        RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
    if(NOT status EQUAL 0)
        message(FATAL_ERROR "the step '${step}' fails:\n${output}")
    endif()
endforeach()
