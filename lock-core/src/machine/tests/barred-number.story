# A number with a hundred wrong codes: refused and penalised; a warden's ways in; a new code.
> lock in use
  wakes in 86400000 ms
> tries 12 99
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  tally Penalty
  record Penalty { lasts: Seconds(300) }
  Penalty { minutes: 5 }
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
  record Refused { who: Number(12), why: Barred, outcome: Plain }
  Sound(Refused)
  Refused { why: Barred, until: None }
  wakes in 60000 ms
> keys 12 739205 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record Refused { who: Number(12), why: Barred, outcome: Duress }
  Alarm(Duress)
  Sound(Refused)
  Refused { why: Barred, until: None }
  wakes in 60000 ms
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
  wakes in 60000 ms
> wait 2000
  60 s later:
  Alarm(Quiet)
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
  wakes in 82400000 ms
> keys ok 2 12 739204 ok
  . List { page: 0 }
  . Who(Status, Nothing)
  . Who(Status, Tens(1))
  . Who(Status, Number(Number(12), 0))
  . Who(Status, Number(Number(12), 1))
  . Who(Status, Number(Number(12), 2))
  . Who(Status, Number(Number(12), 3))
  . Who(Status, Number(Number(12), 4))
  . Who(Status, Number(Number(12), 5))
  . Who(Status, Number(Number(12), 6))
  tally Counted(Number(12))
  record Refused { who: Number(12), why: Barred, outcome: Plain }
  Sound(Refused)
  Refused { why: Barred, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 82339000 ms
> keys ok ok 3 01 480317 ok 12 ok 842613 ok 842613 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Restore, Nothing)
  . Who(Restore, Tens(0))
  . Who(Restore, Number(Number(1), 0))
  . Who(Restore, Number(Number(1), 1))
  . Who(Restore, Number(Number(1), 2))
  . Who(Restore, Number(Number(1), 3))
  . Who(Restore, Number(Number(1), 4))
  . Who(Restore, Number(Number(1), 5))
  . Who(Restore, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Restore, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(6), trouble: None })
  . Form(Confirm { topic: Task(Restore), gist: Holder(Number(12)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Restored(Number(12)) }
  Sound(Accepted)
  tally Cleared(Number(12))
  Form(Done { change: Restored(Number(12)), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 82278000 ms
> keys 12 842613 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record Refused { who: Number(12), why: Closed, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Closed, until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 60000 ms
> bolt drawn
  Alarm(Tamper)
  record Forced
  Open { late: No }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> tries 1 100
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  tally Penalty
  record Penalty { lasts: Seconds(1200) }
  Penalty { minutes: 20 }
  wakes in 60000 ms
> wait 4000
  60 s later:
  Penalty { minutes: 19 }
  120 s later:
  Penalty { minutes: 18 }
  180 s later:
  Penalty { minutes: 17 }
  240 s later:
  Penalty { minutes: 16 }
  300 s later:
  Penalty { minutes: 15 }
  360 s later:
  Penalty { minutes: 14 }
  420 s later:
  Penalty { minutes: 13 }
  480 s later:
  Penalty { minutes: 12 }
  540 s later:
  Penalty { minutes: 11 }
  600 s later:
  Penalty { minutes: 10 }
  660 s later:
  Penalty { minutes: 9 }
  720 s later:
  Penalty { minutes: 8 }
  780 s later:
  Penalty { minutes: 7 }
  840 s later:
  Penalty { minutes: 6 }
  900 s later:
  Penalty { minutes: 5 }
  960 s later:
  Penalty { minutes: 4 }
  1020 s later:
  Penalty { minutes: 3 }
  1080 s later:
  Penalty { minutes: 2 }
  1140 s later:
  Penalty { minutes: 1 }
  1200 s later:
  tally Served
  Secured { supply: Good, clock: Valid }
  wakes in 82400000 ms
> keys 01 480317 ok
  . Entry(Tens(0))
  . Entry(Number(Number(1), 0))
  . Entry(Number(Number(1), 1))
  . Entry(Number(Number(1), 2))
  . Entry(Number(Number(1), 3))
  . Entry(Number(Number(1), 4))
  . Entry(Number(Number(1), 5))
  . Entry(Number(Number(1), 6))
  tally Counted(Number(1))
  record Refused { who: Number(1), why: Barred, outcome: Plain }
  Sound(Refused)
  Refused { why: Barred, until: None }
  wakes in 60000 ms
> keys 02 615024 ok
  . Entry(Tens(0))
  . Entry(Number(Number(2), 0))
  . Entry(Number(Number(2), 1))
  . Entry(Number(Number(2), 2))
  . Entry(Number(Number(2), 3))
  . Entry(Number(Number(2), 4))
  . Entry(Number(Number(2), 5))
  . Entry(Number(Number(2), 6))
  tally Counted(Number(2))
  record Refused { who: Number(2), why: Right, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(2))
  Refused { why: Right, until: None }
  wakes in 60000 ms
> keys 01 480317 ok
  . Entry(Tens(0))
  . Entry(Number(Number(1), 0))
  . Entry(Number(Number(1), 1))
  . Entry(Number(Number(1), 2))
  . Entry(Number(Number(1), 3))
  . Entry(Number(Number(1), 4))
  . Entry(Number(Number(1), 5))
  . Entry(Number(Number(1), 6))
  tally Counted(Number(1))
  record Released { people: People { first: Number(1), second: None }, outcome: Plain }
  tally Cleared(Number(1))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803899842))
  Open { late: No }
  wakes in 60000 ms
> keys 01 480317 ok
  . Entry(Tens(0))
  . Entry(Number(Number(1), 0))
  . Entry(Number(Number(1), 1))
  . Entry(Number(Number(1), 2))
  . Entry(Number(Number(1), 3))
  . Entry(Number(Number(1), 4))
  . Entry(Number(Number(1), 5))
  . Entry(Number(Number(1), 6))
  tally Counted(Number(1))
  record Refused { who: Number(1), why: AlreadyOpen, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(1))
  Refused { why: AlreadyOpen, until: None }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> wait 90000
  83600 s later:
  tally Eased
  wakes in 78800000 ms
> tries 1 100
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
> keys 01 480317 ok
  . Entry(Tens(0))
  . Entry(Number(Number(1), 0))
  . Entry(Number(Number(1), 1))
  . Entry(Number(Number(1), 2))
  . Entry(Number(Number(1), 3))
  . Entry(Number(Number(1), 4))
  . Entry(Number(Number(1), 5))
  . Entry(Number(Number(1), 6))
  tally Counted(Number(1))
  record Released { people: People { first: Number(1), second: None }, outcome: Plain }
  tally Cleared(Number(1))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1804079902))
  Open { late: No }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> tries 2 100
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  tally Penalty
  record Penalty { lasts: Seconds(300) }
  Penalty { minutes: 5 }
  wakes in 60000 ms
> wait 8000
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
  wakes in 78400000 ms
> keys ok ok ok ok 2 02 615024 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(Files, Nothing)
  . Who(Files, Tens(0))
  . Who(Files, Number(Number(2), 0))
  . Who(Files, Number(Number(2), 1))
  . Who(Files, Number(Number(2), 2))
  . Who(Files, Number(Number(2), 3))
  . Who(Files, Number(Number(2), 4))
  . Who(Files, Number(Number(2), 5))
  . Who(Files, Number(Number(2), 6))
  tally Counted(Number(2))
  record Refused { who: Number(2), why: Barred, outcome: Plain }
  Sound(Refused)
  Refused { why: Barred, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 78339000 ms
> keys ok ok ok ok 1 04 306518 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(Numbers, Nothing)
  . Who(Numbers, Tens(0))
  . Who(Numbers, Number(Number(4), 0))
  . Who(Numbers, Number(Number(4), 1))
  . Who(Numbers, Number(Number(4), 2))
  . Who(Numbers, Number(Number(4), 3))
  . Who(Numbers, Number(Number(4), 4))
  . Who(Numbers, Number(Number(4), 5))
  . Who(Numbers, Number(Number(4), 6))
  tally Counted(Number(4))
  record Asked { who: Number(4), task: Numbers, outcome: Plain }
  .
  tally Cleared(Number(4))
  Form(Numbers { rows: [Some(Row { number: Number(1), role: Warden, suspended: false }), Some(Row { number: Number(2), role: Steward, suspended: false }), Some(Row { number: Number(3), role: Deputy, suspended: false })] })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 78278000 ms
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
> bolt drawn
  record Opened
  tally Brought(Steady(1804088084))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok ok ok 2 02 615024 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(Files, Nothing)
  . Who(Files, Tens(0))
  . Who(Files, Number(Number(2), 0))
  . Who(Files, Number(Number(2), 1))
  . Who(Files, Number(Number(2), 2))
  . Who(Files, Number(Number(2), 3))
  . Who(Files, Number(Number(2), 4))
  . Who(Files, Number(Number(2), 5))
  . Who(Files, Number(Number(2), 6))
  tally Counted(Number(2))
  record Refused { who: Number(2), why: Barred, outcome: Plain }
  Sound(Refused)
  Refused { why: Barred, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 78217000 ms
> keys ok ok 3 04 306518 ok 02 ok 381546 ok 381546 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Restore, Nothing)
  . Who(Restore, Tens(0))
  . Who(Restore, Number(Number(4), 0))
  . Who(Restore, Number(Number(4), 1))
  . Who(Restore, Number(Number(4), 2))
  . Who(Restore, Number(Number(4), 3))
  . Who(Restore, Number(Number(4), 4))
  . Who(Restore, Number(Number(4), 5))
  . Who(Restore, Number(Number(4), 6))
  tally Counted(Number(4))
  record Asked { who: Number(4), task: Restore, outcome: Plain }
  .
  tally Cleared(Number(4))
  Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 2, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Restore), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Restore), field: Again, shown: Dots(6), trouble: None })
  . Form(Second { topic: Task(Restore), whom: Privileged, typed: Nothing })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 78156000 ms
> keys ok ok ok ok 2 02 381546 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(Files, Nothing)
  . Who(Files, Tens(0))
  . Who(Files, Number(Number(2), 0))
  . Who(Files, Number(Number(2), 1))
  . Who(Files, Number(Number(2), 2))
  . Who(Files, Number(Number(2), 3))
  . Who(Files, Number(Number(2), 4))
  . Who(Files, Number(Number(2), 5))
  . Who(Files, Number(Number(2), 6))
  tally Counted(Number(2))
  record WrongCode { who: Number(2) }
  Sound(Refused)
  Refused { why: Barred, until: None }
  wakes in 60000 ms
