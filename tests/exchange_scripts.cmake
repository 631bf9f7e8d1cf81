# Scripts that read what the example program writes, each called with the program and a directory of its own to write in.

file(GLOB scripts CONFIGURE_DEPENDS "${CMAKE_CURRENT_LIST_DIR}/exchange/*_test.py")

# Whatever a script needs beyond Python must be there before the first test runs: a check that quietly skips is none.
foreach(script IN LISTS scripts)
    file(STRINGS "${script}" uses_ezdxf REGEX "^ *(import|from) ezdxf")
    if(uses_ezdxf AND NOT DEFINED rackwork_ezdxf_missing)
        execute_process(COMMAND "${RACKWORK_PYTHON}" -c "import ezdxf"
            RESULT_VARIABLE rackwork_ezdxf_missing OUTPUT_QUIET ERROR_QUIET)
        if(rackwork_ezdxf_missing)
            message(FATAL_ERROR
                "${script} reads drawings with the Python package ezdxf, which ${RACKWORK_PYTHON} does not have "
                "(Debian package python3-ezdxf). Install it, or leave 'exchange' out of RACKWORK_TEST_GROUPS.")
        endif()
    endif()
    file(STRINGS "${script}" uses_rsvg REGEX "rsvg-convert")
    if(uses_rsvg)
        find_program(RACKWORK_RSVG_CONVERT NAMES rsvg-convert)
        if(NOT RACKWORK_RSVG_CONVERT)
            message(FATAL_ERROR
                "${script} renders drawings with rsvg-convert, which is missing (Debian package librsvg2-bin). "
                "Install it, or leave 'exchange' out of RACKWORK_TEST_GROUPS.")
        endif()
    endif()
endforeach()

if(scripts AND NOT TARGET gear_pair)
    message(WARNING "The scripts of tests/exchange need the example program gear_pair, which is not built; they will fail.")
    add_test(NAME "exchange.gear_pair_is_built" COMMAND "${CMAKE_COMMAND}" -E false)
    set(scripts "")
endif()
foreach(script IN LISTS scripts)
    get_filename_component(name "${script}" NAME_WE)
    set(scratch "${CMAKE_CURRENT_BINARY_DIR}/scratch/exchange/${name}")
    file(MAKE_DIRECTORY "${scratch}")
    add_test(NAME "exchange.${name}"
        COMMAND "${RACKWORK_PYTHON}" "${script}" "$<TARGET_FILE:gear_pair>" "${scratch}"
        WORKING_DIRECTORY "${scratch}")
    # The locale is left as it is: the files must come out the same under any.
    set_tests_properties("exchange.${name}" PROPERTIES
        LABELS exchange TIMEOUT 300 ENVIRONMENT "PYTHONDONTWRITEBYTECODE=1")
endforeach()
