# Open CASCADE, the geometry kernel, for what is built only where it is installed. After including this, the target
# rackwork_open_cascade exists if the kernel's modelling part was found (Debian package libocct-modeling-algorithms-dev).
if(NOT TARGET rackwork_open_cascade)
    find_path(RACKWORK_OPEN_CASCADE_HEADERS Standard_Version.hxx PATH_SUFFIXES opencascade)
    mark_as_advanced(RACKWORK_OPEN_CASCADE_HEADERS)
    set(open_cascade_libraries "")
    foreach(library IN ITEMS TKBO TKPrim TKTopAlgo TKGeomAlgo TKBRep TKGeomBase TKG3d TKG2d TKMath TKernel)
        find_library(RACKWORK_OPEN_CASCADE_${library} ${library})
        mark_as_advanced(RACKWORK_OPEN_CASCADE_${library})
        list(APPEND open_cascade_libraries "${RACKWORK_OPEN_CASCADE_${library}}")
    endforeach()
    if(RACKWORK_OPEN_CASCADE_HEADERS AND NOT open_cascade_libraries MATCHES "NOTFOUND")
        add_library(rackwork_open_cascade INTERFACE)
        # As a system's headers: they are not held to our warnings.
        target_include_directories(rackwork_open_cascade SYSTEM INTERFACE "${RACKWORK_OPEN_CASCADE_HEADERS}")
        target_link_libraries(rackwork_open_cascade INTERFACE ${open_cascade_libraries})
    endif()
endif()
