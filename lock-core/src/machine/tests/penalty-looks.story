# In a penalty: eight entries are judged, duress among them; a boot gives eight anew.
> lock in use
  wakes in 86400000 ms
> tries 77 40
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  tally Penalty
  record Penalty { lasts: Seconds(300) }
  Penalty { minutes: 5 }
  wakes in 60000 ms
> keys 12 739204 ok
  record Refused { who: Number(12), why: Penalty, outcome: Plain }
  wakes in 60000 ms
> keys 12 739205 ok
  record Refused { who: Number(12), why: Penalty, outcome: Duress }
  Alarm(Duress)
  wakes in 60000 ms
> keys 12 111222 ok
  record Refused { who: Number(12), why: Penalty, outcome: Plain }
  wakes in 60000 ms
> keys 1 back 12 739204 ok
  record Refused { who: Number(12), why: Penalty, outcome: Plain }
  wakes in 60000 ms
> keys 12 739204 ok
  record Refused { who: Number(12), why: Penalty, outcome: Plain }
  wakes in 60000 ms
> keys 12 739204 ok
  record Refused { who: Number(12), why: Penalty, outcome: Plain }
  wakes in 60000 ms
> keys 12 739204 ok
  record Refused { who: Number(12), why: Penalty, outcome: Plain }
  wakes in 60000 ms
> keys 12 739204 ok
  record Refused { who: Number(12), why: Penalty, outcome: Plain }
  wakes in 60000 ms
> keys 12 739205 ok
  wakes in 60000 ms
> wait 61
  60 s later:
  Alarm(Quiet)
  Penalty { minutes: 4 }
  wakes in 59000 ms
> keys 12 739205 ok
  wakes in 59000 ms
> keys ok ok ok
  wakes in 59000 ms
> power cut
  Alarm(Duress)
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Penalty { minutes: 5 }
  wakes in 60000 ms
> keys 12 739205 ok
  record Refused { who: Number(12), why: Penalty, outcome: Duress }
  wakes in 60000 ms
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
  wakes in 86000000 ms
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
> keys 40 111222 ok 40 111222 ok
  . Entry(Tens(4))
  . Entry(Number(Number(40), 0))
  . Entry(Number(Number(40), 1))
  . Entry(Number(Number(40), 2))
  . Entry(Number(Number(40), 3))
  . Entry(Number(Number(40), 4))
  . Entry(Number(Number(40), 5))
  . Entry(Number(Number(40), 6))
  tally Counted(Number(40))
  record WrongCode { who: Number(40) }
  Sound(Refused)
  WrongCode { left: 3 }
  . Entry(Tens(4))
  . Entry(Number(Number(40), 0))
  . Entry(Number(Number(40), 1))
  . Entry(Number(Number(40), 2))
  . Entry(Number(Number(40), 3))
  . Entry(Number(Number(40), 4))
  . Entry(Number(Number(40), 5))
  . Entry(Number(Number(40), 6))
  tally Counted(Number(40))
  record WrongCode { who: Number(40) }
  Sound(Refused)
  WrongCode { left: 2 }
  wakes in 6000 ms
> wait 40000
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 46000000 ms
> keys 41 111222 ok
  . Entry(Tens(4))
  . Entry(Number(Number(41), 0))
  . Entry(Number(Number(41), 1))
  . Entry(Number(Number(41), 2))
  . Entry(Number(Number(41), 3))
  . Entry(Number(Number(41), 4))
  . Entry(Number(Number(41), 5))
  . Entry(Number(Number(41), 6))
  tally Counted(Number(41))
  record WrongCode { who: Number(41) }
  Sound(Refused)
  WrongCode { left: 1 }
  wakes in 60000 ms
> wait 60000
  60 s later:
  Secured { supply: Good, clock: Valid }
  46300 s later:
  tally Eased
  46400 s later:
  tally Faded(Number(40))
  tally Faded(Number(40))
  wakes in 26400000 ms
> keys 41 111222 ok
  . Entry(Tens(4))
  . Entry(Number(Number(41), 0))
  . Entry(Number(Number(41), 1))
  . Entry(Number(Number(41), 2))
  . Entry(Number(Number(41), 3))
  . Entry(Number(Number(41), 4))
  . Entry(Number(Number(41), 5))
  . Entry(Number(Number(41), 6))
  tally Counted(Number(41))
  record WrongCode { who: Number(41) }
  Sound(Refused)
  WrongCode { left: 2 }
  wakes in 60000 ms
> wait 100000
  60 s later:
  Secured { supply: Good, clock: Valid }
  26400 s later:
  tally Faded(Number(41))
  86400 s later:
  tally Faded(Number(41))
  wakes in 58800000 ms
> keys 43 111222 ok 42 111222 ok 43 111222 ok
  . Entry(Tens(4))
  . Entry(Number(Number(43), 0))
  . Entry(Number(Number(43), 1))
  . Entry(Number(Number(43), 2))
  . Entry(Number(Number(43), 3))
  . Entry(Number(Number(43), 4))
  . Entry(Number(Number(43), 5))
  . Entry(Number(Number(43), 6))
  tally Counted(Number(43))
  record WrongCode { who: Number(43) }
  Sound(Refused)
  WrongCode { left: 3 }
  . Entry(Tens(4))
  . Entry(Number(Number(42), 0))
  . Entry(Number(Number(42), 1))
  . Entry(Number(Number(42), 2))
  . Entry(Number(Number(42), 3))
  . Entry(Number(Number(42), 4))
  . Entry(Number(Number(42), 5))
  . Entry(Number(Number(42), 6))
  tally Counted(Number(42))
  record WrongCode { who: Number(42) }
  Sound(Refused)
  WrongCode { left: 2 }
  . Entry(Tens(4))
  . Entry(Number(Number(43), 0))
  . Entry(Number(Number(43), 1))
  . Entry(Number(Number(43), 2))
  . Entry(Number(Number(43), 3))
  . Entry(Number(Number(43), 4))
  . Entry(Number(Number(43), 5))
  . Entry(Number(Number(43), 6))
  tally Counted(Number(43))
  record WrongCode { who: Number(43) }
  Sound(Refused)
  WrongCode { left: 1 }
  wakes in 60000 ms
> wait 90000
  60 s later:
  Secured { supply: Good, clock: Valid }
  86400 s later:
  tally Faded(Number(42))
  tally Faded(Number(43))
  tally Faded(Number(43))
  wakes in 55200000 ms
> tries 20 98
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  tally Penalty
  record Penalty { lasts: Seconds(300) }
  Penalty { minutes: 5 }
  wakes in 60000 ms
> wait 90000
  60 s later:
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
  86700 s later:
  tally Eased
  wakes in 82800000 ms
> keys ok 3 20 111222 ok
  . List { page: 0 }
  . Who(ChangeCode, Nothing)
  . Who(ChangeCode, Tens(2))
  . Who(ChangeCode, Number(Number(20), 0))
  . Who(ChangeCode, Number(Number(20), 1))
  . Who(ChangeCode, Number(Number(20), 2))
  . Who(ChangeCode, Number(Number(20), 3))
  . Who(ChangeCode, Number(Number(20), 4))
  . Who(ChangeCode, Number(Number(20), 5))
  . Who(ChangeCode, Number(Number(20), 6))
  tally Counted(Number(20))
  record WrongCode { who: Number(20) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> keys 21 111222 ok 21 111222 ok
  . Entry(Tens(2))
  . Entry(Number(Number(21), 0))
  . Entry(Number(Number(21), 1))
  . Entry(Number(Number(21), 2))
  . Entry(Number(Number(21), 3))
  . Entry(Number(Number(21), 4))
  . Entry(Number(Number(21), 5))
  . Entry(Number(Number(21), 6))
  tally Counted(Number(21))
  record WrongCode { who: Number(21) }
  Sound(Refused)
  WrongCode { left: 2 }
  . Entry(Tens(2))
  . Entry(Number(Number(21), 0))
  . Entry(Number(Number(21), 1))
  . Entry(Number(Number(21), 2))
  . Entry(Number(Number(21), 3))
  . Entry(Number(Number(21), 4))
  . Entry(Number(Number(21), 5))
  . Entry(Number(Number(21), 6))
  tally Counted(Number(21))
  record WrongCode { who: Number(21) }
  Sound(Refused)
  WrongCode { left: 1 }
  wakes in 60000 ms
> tries 21 3
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  tally Penalty
  record Penalty { lasts: Seconds(300) }
  Penalty { minutes: 5 }
  wakes in 60000 ms
> keys 21 111222 ok
  record Refused { who: Number(21), why: Penalty, outcome: Plain }
  wakes in 60000 ms
> wait 2000
  60 s later:
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
  wakes in 84400000 ms
