model in "three_feet.bug"
data in "three_feet.data"
compile, nchains(4)
parameters in "three_feet.init1", chain(1)
parameters in "three_feet.init2", chain(2)
parameters in "three_feet.init3", chain(3)
parameters in "three_feet.init4", chain(4)
initialize
update 10000
monitor TA
monitor TB
monitor TC
monitor TAnew
monitor c
monitor m
update 250000
coda *, stem("")
exit
