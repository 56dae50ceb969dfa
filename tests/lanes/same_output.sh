#!/bin/sh
# same_output.sh ONE OTHER: both programs print the same, and something.
one=$("$1") && other=$("$2") && echo "$one" && [ -n "$one" ] && [ "$one" = "$other" ] && exit 0
echo "not: $other"
exit 1
