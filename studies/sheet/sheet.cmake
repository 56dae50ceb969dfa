# The script that draws the calculation sheet's figures, made from studies/sheet/draw and carried in the program. Its
# packages are fetched when CMake configures, once for each state of the lockfile: what the build can do is then known
# before it starts, a build needs no network, and one without nodejs, npm or network still gives the whole program but
# for the page (studies::sheet::bundle() is then null).
set(draw ${CMAKE_CURRENT_LIST_DIR}/draw)
set(sheet_made ${CMAKE_CURRENT_BINARY_DIR}/sheet)
file(MAKE_DIRECTORY ${sheet_made})

# Sets SHEET_READY, and SHEET_LACKS to what stands in the way.
function(fetch_sheet_packages)
  set(SHEET_READY OFF PARENT_SCOPE)
  find_program(SCREWTINY_NODE NAMES node nodejs)
  find_program(SCREWTINY_NPM npm)
  if(NOT SCREWTINY_NODE OR NOT SCREWTINY_NPM)
    set(SHEET_LACKS "node or npm not found; on Debian: apt-get install nodejs npm" PARENT_SCOPE)
    return()
  endif()
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${draw}/package.json ${draw}/package-lock.json)
  file(SHA256 ${draw}/package-lock.json wanted)
  set(stamp ${sheet_made}/fetched)
  if(EXISTS ${stamp})
    file(READ ${stamp} fetched)
  endif()
  if(NOT wanted STREQUAL "${fetched}")
    message(STATUS "Calculation sheet: fetching its packages with npm")
    file(COPY ${draw}/package.json ${draw}/package-lock.json DESTINATION ${sheet_made})
    execute_process(COMMAND ${SCREWTINY_NPM} ci --ignore-scripts --no-audit --no-fund --fetch-retries=1
                    WORKING_DIRECTORY ${sheet_made} TIMEOUT 300
                    RESULT_VARIABLE failed OUTPUT_VARIABLE said ERROR_VARIABLE said)
    if(failed)
      file(WRITE ${sheet_made}/npm.log "${said}")
      set(SHEET_LACKS "npm ci failed (${sheet_made}/npm.log); configure again with a network" PARENT_SCOPE)
      return()
    endif()
    file(WRITE ${stamp} ${wanted})
  endif()
  set(SHEET_READY ON PARENT_SCOPE)
endfunction()

if(SCREWTINY_SHEET)
  fetch_sheet_packages()
else()
  set(SHEET_LACKS "switched off by SCREWTINY_SHEET")
endif()

if(SHEET_READY)
  message(STATUS "Calculation sheet: with figures")
  set(sheet_parts ${sheet_made}/sheet.js ${sheet_made}/sheet.css ${sheet_made}/figures.cjs)
  file(GLOB sheet_sources CONFIGURE_DEPENDS ${draw}/*)
  add_custom_command(OUTPUT ${sheet_parts} DEPENDS ${sheet_sources} ${sheet_made}/fetched
                     COMMAND ${SCREWTINY_NODE} ${draw}/bundle.mjs ${draw} ${sheet_made}/node_modules ${sheet_made}
                     COMMENT "Bundling the script of the calculation sheet" VERBATIM)
else()
  message(STATUS "Calculation sheet: left out, ${SHEET_LACKS}")
  file(WRITE ${sheet_made}/nothing "")
  set(sheet_parts ${sheet_made}/nothing ${sheet_made}/nothing ${sheet_made}/nothing)
endif()
list(GET sheet_parts 0 sheet_script)
list(GET sheet_parts 1 sheet_style)
list(GET sheet_parts 2 sheet_figures)
configure_file(${CMAKE_CURRENT_LIST_DIR}/bundle.S.in ${sheet_made}/bundle.S @ONLY)
set_source_files_properties(${sheet_made}/bundle.S PROPERTIES OBJECT_DEPENDS "${sheet_parts}")
target_sources(studies PRIVATE ${sheet_made}/bundle.S)
