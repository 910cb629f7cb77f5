# Four wrong codes, two penalties, what fades.
> keys 12 111222 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> keys 13 222333 ok
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record WrongCode { who: Number(13) }
  Sound(Refused)
  WrongCode { left: 2 }
  wakes in 60000 ms
> keys 12 739204 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record Released { people: People { first: Number(12), second: None }, outcome: Plain }
  tally Cleared(Number(12))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> wait 7
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 1000 ms
> keys 12 111222 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  WrongCode { left: 2 }
  wakes in 1000 ms
> keys 12 111222 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  WrongCode { left: 1 }
  wakes in 1000 ms
> keys 12 111222 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  tally Penalty
  record Penalty { lasts: Seconds(300) }
  Penalty { minutes: 5 }
  wakes in 1000 ms
> keys 12 739204 ok
  record Refused { who: Number(12), why: Penalty, outcome: Plain }
  wakes in 1000 ms
> keys 12 739205 ok
  record Refused { who: Number(12), why: Penalty, outcome: Duress }
  Alarm(Duress)
  wakes in 1000 ms
> wait 400
  60 s later:
  Alarm(Quiet)
  Penalty { minutes: 4 }
  120 s later:
  Penalty { minutes: 3 }
  180 s later:
  Penalty { minutes: 2 }
  240 s later:
  Penalty { minutes: 1 }
  300 s later:
  tally Served
  Secured { supply: Good, clock: Valid }
  wakes in 85993000 ms
> keys 12 739204 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record Released { people: People { first: Number(12), second: None }, outcome: Plain }
  tally Cleared(Number(12))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> wait 7
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 1000 ms
> keys 12 111222 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 1000 ms
> keys 12 111222 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  WrongCode { left: 2 }
  wakes in 1000 ms
> keys 12 111222 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  WrongCode { left: 1 }
  wakes in 1000 ms
> keys 12 111222 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  tally Penalty
  record Penalty { lasts: Seconds(600) }
  Penalty { minutes: 10 }
  wakes in 1000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Penalty { minutes: 10 }
  wakes in 60000 ms
> wait 700
  60 s later:
  Penalty { minutes: 9 }
  120 s later:
  Penalty { minutes: 8 }
  180 s later:
  Penalty { minutes: 7 }
  240 s later:
  Penalty { minutes: 6 }
  300 s later:
  Penalty { minutes: 5 }
  360 s later:
  Penalty { minutes: 4 }
  420 s later:
  Penalty { minutes: 3 }
  480 s later:
  Penalty { minutes: 2 }
  540 s later:
  Penalty { minutes: 1 }
  600 s later:
  tally Served
  Secured { supply: Good, clock: Valid }
  wakes in 85700000 ms
> keys 13 158260 ok
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record Released { people: People { first: Number(13), second: None }, outcome: Plain }
  tally Cleared(Number(13))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> wait 7
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 1000 ms
> keys 77 111222 ok
  . Entry(Tens(7))
  . Entry(Number(Number(77), 0))
  . Entry(Number(Number(77), 1))
  . Entry(Number(Number(77), 2))
  . Entry(Number(Number(77), 3))
  . Entry(Number(Number(77), 4))
  . Entry(Number(Number(77), 5))
  . Entry(Number(Number(77), 6))
  tally Counted(Number(77))
  record WrongCode { who: Number(77) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 1000 ms
> wait 100000
  60 s later:
  Secured { supply: Good, clock: Valid }
  86293 s later:
  tally Eased
  86400 s later:
  tally Faded(Number(77))
  wakes in 72093000 ms
> keys 77 111222 ok
  . Entry(Tens(7))
  . Entry(Number(Number(77), 0))
  . Entry(Number(Number(77), 1))
  . Entry(Number(Number(77), 2))
  . Entry(Number(Number(77), 3))
  . Entry(Number(Number(77), 4))
  . Entry(Number(Number(77), 5))
  . Entry(Number(Number(77), 6))
  tally Counted(Number(77))
  record WrongCode { who: Number(77) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> wait 200000
  60 s later:
  Secured { supply: Good, clock: Valid }
  86400 s later:
  tally Faded(Number(77))
  wakes in 44893000 ms
