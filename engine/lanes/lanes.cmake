# Hot loops: a file *_lanes.cpp is compiled once per instruction set, in the namespace that SCREWTINY_SET names, and
# engine/lanes/instructions picks one at run time. The flags name exactly the features that it asks the machine for.
# Such a file must leave no weak symbol behind (tests/lanes checks it): a copy for AVX-512 could be linked for everybody.
set(lanes_flags_baseline)
set(lanes_flags_v3 -mavx2)
set(lanes_flags_v4 -mavx512f -mavx512cd -mavx512bw -mavx512dq -mavx512vl -mprefer-vector-width=512)
if(CMAKE_SYSTEM_PROCESSOR MATCHES "x86_64|AMD64")
  set(lanes_sets baseline v3 v4)
else()
  set(lanes_sets baseline)
endif()
if(CMAKE_CXX_COMPILER_ID MATCHES Clang)
  set(lanes_warnings -Wno-pass-failed)  # a loop that clang does not vectorise is slower, not wrong
endif()
set(lanes_level O3)  # whatever the build type: elsewhere functions would be left that are not inlined

# add_lanes(TARGET SOURCE…): SOURCE once per instruction set, into TARGET.
function(add_lanes target)
  foreach(source ${ARGN})
    get_filename_component(stem ${source} NAME_WE)
    foreach(set ${lanes_sets})
      set(loops ${target}_${stem}_${set})
      add_library(${loops} OBJECT ${source})
      target_compile_definitions(${loops} PRIVATE SCREWTINY_SET=${set})
      target_compile_options(${loops} PRIVATE -fno-trapping-math ${lanes_warnings} ${lanes_flags_${set}} -${lanes_level})
      target_include_directories(${loops} PRIVATE $<TARGET_PROPERTY:${target},INCLUDE_DIRECTORIES>)
      target_link_libraries(${loops} PRIVATE screwtiny_flags)
      target_sources(${target} PRIVATE $<TARGET_OBJECTS:${loops}>)
      if(lanes_level STREQUAL O3)
        set_property(GLOBAL APPEND PROPERTY lanes_objects $<TARGET_OBJECTS:${loops}>)
      endif()
    endforeach()
  endforeach()
endfunction()
