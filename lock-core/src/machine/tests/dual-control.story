# Two people, set at the opened lock; the second too late, the same, a stranger, duress.
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
  tally Brought(Steady(1803891600))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok ok ok ok 1 01 480317 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> keys ok ok ok 3 2 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 11 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 11 }, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 11, value: 2 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(11, 2) }
  Sound(Accepted)
  Form(Done { change: PolicySet(11, 2), from: None })
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> wait 70
  wakes in 86330000 ms
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
  record FirstOfTwo { who: Number(12), outcome: Plain }
  .
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
  wakes in 60000 ms
> wait 61
  60 s later:
  record Lapsed
  Secured { supply: Good, clock: Valid }
  wakes in 86269000 ms
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
  record FirstOfTwo { who: Number(12), outcome: Plain }
  .
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
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
  record Refused { who: Number(12), why: SamePerson, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: SamePerson, until: None }
  wakes in 60000 ms
> keys 13 111222 ok
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
  WrongCode { left: 3 }
  wakes in 60000 ms
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
  record Released { people: People { first: Number(12), second: Some(Number(13)) }, outcome: Plain }
  tally Cleared(Number(13))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  Open { late: No }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
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
  record FirstOfTwo { who: Number(12), outcome: Duress }
  Alarm(Duress)
  .
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
  wakes in 60000 ms
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
  record Released { people: People { first: Number(12), second: Some(Number(13)) }, outcome: Duress }
  tally Cleared(Number(13))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> wait 10
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 50000 ms
> wait 60
  50 s later:
  Alarm(Quiet)
  wakes in 86199000 ms
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
  record FirstOfTwo { who: Number(12), outcome: Plain }
  .
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
  wakes in 60000 ms
> keys ok 1 13 158260 ok ok
  . List { page: 0 }
  . Who(HoldShut, Nothing)
  . Who(HoldShut, Tens(1))
  . Who(HoldShut, Number(Number(13), 0))
  . Who(HoldShut, Number(Number(13), 1))
  . Who(HoldShut, Number(Number(13), 2))
  . Who(HoldShut, Number(Number(13), 3))
  . Who(HoldShut, Number(Number(13), 4))
  . Who(HoldShut, Number(Number(13), 5))
  . Who(HoldShut, Number(Number(13), 6))
  tally Counted(Number(13))
  record Asked { who: Number(13), task: HoldShut, outcome: Plain }
  .
  tally Cleared(Number(13))
  Form(Confirm { topic: Task(HoldShut), gist: Hold(Stamp { date: Date(20879), minute: Minute(480) }), trouble: None })
  tally HeldShut(Steady(1803974400))
  record HeldShut { who: Number(13), until: Utc(1803974400) }
  Sound(Accepted)
  HoldSet { until: Stamp { date: Date(20879), minute: Minute(480) } }
  wakes in 60000 ms
> wait 61
  60 s later:
  record Lapsed
  HeldShut { until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 82538000 ms
> keys ok ok ok ok ok 1 01 480317 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> keys ok ok ok 3 1 ok 04 306518 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 11 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 11 }, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Nothing })
  . Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Tens(0) })
  . Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 0) })
  . Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 1) })
  . Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 2) })
  . Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 3) })
  . Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 4) })
  . Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 5) })
  . Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 6) })
  tally Counted(Number(4))
  record Asked { who: Number(4), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(4))
  Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 11, value: 1 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: Some(Number(4)) }), change: PolicySet(11, 1) }
  Sound(Accepted)
  Form(Done { change: PolicySet(11, 1), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  HeldShut { until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 82477000 ms
