#!/bin/sh
# no_weak_symbols.sh OBJECT…: none has a symbol that a linker could take for code of another instruction set.
[ $# -gt 0 ] || exit 1
for object; do nm -C "$object" | grep -E ' [WVu] ' | sed "s|^|$object: |"; done | grep . && exit 1
exit 0
