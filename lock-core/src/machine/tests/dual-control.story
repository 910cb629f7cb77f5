# Two people, set at the opened lock; the second too late, the same, a stranger, duress.
> keys 13 158260 ok
  Sound(Key)
  Entry(Tens(1))
  Sound(Key)
  Entry(Number(Number(13), 0))
  Sound(Key)
  Entry(Number(Number(13), 1))
  Sound(Key)
  Entry(Number(Number(13), 2))
  Sound(Key)
  Entry(Number(Number(13), 3))
  Sound(Key)
  Entry(Number(Number(13), 4))
  Sound(Key)
  Entry(Number(Number(13), 5))
  Sound(Key)
  Entry(Number(Number(13), 6))
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
  Sound(Key)
  List { page: 0 }
  Sound(Key)
  List { page: 1 }
  Sound(Key)
  List { page: 2 }
  Sound(Key)
  List { page: 3 }
  Sound(Key)
  List { page: 4 }
  Sound(Key)
  Who(SetPolicy, Nothing)
  Sound(Key)
  Who(SetPolicy, Tens(0))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 0))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 1))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 2))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 3))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 4))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 5))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  Sound(Key)
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> keys ok ok ok 3 2 ok ok
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 11 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 11 }, shown: Digits { value: 2, count: 1 }, trouble: None })
  Sound(Key)
  Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 11, value: 2 }, trouble: None })
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
  Sound(Key)
  Entry(Tens(1))
  Sound(Key)
  Entry(Number(Number(12), 0))
  Sound(Key)
  Entry(Number(Number(12), 1))
  Sound(Key)
  Entry(Number(Number(12), 2))
  Sound(Key)
  Entry(Number(Number(12), 3))
  Sound(Key)
  Entry(Number(Number(12), 4))
  Sound(Key)
  Entry(Number(Number(12), 5))
  Sound(Key)
  Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record FirstOfTwo { who: Number(12), outcome: Plain }
  Sound(Key)
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
  wakes in 60000 ms
> wait 61
  60 s later:
  record Lapsed
  Secured { supply: Good, clock: Valid }
  wakes in 86269000 ms
> keys 12 739204 ok
  Sound(Key)
  Entry(Tens(1))
  Sound(Key)
  Entry(Number(Number(12), 0))
  Sound(Key)
  Entry(Number(Number(12), 1))
  Sound(Key)
  Entry(Number(Number(12), 2))
  Sound(Key)
  Entry(Number(Number(12), 3))
  Sound(Key)
  Entry(Number(Number(12), 4))
  Sound(Key)
  Entry(Number(Number(12), 5))
  Sound(Key)
  Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record FirstOfTwo { who: Number(12), outcome: Plain }
  Sound(Key)
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
  wakes in 60000 ms
> keys 12 739204 ok
  Sound(Key)
  Entry(Tens(1))
  Sound(Key)
  Entry(Number(Number(12), 0))
  Sound(Key)
  Entry(Number(Number(12), 1))
  Sound(Key)
  Entry(Number(Number(12), 2))
  Sound(Key)
  Entry(Number(Number(12), 3))
  Sound(Key)
  Entry(Number(Number(12), 4))
  Sound(Key)
  Entry(Number(Number(12), 5))
  Sound(Key)
  Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record Refused { who: Number(12), why: SamePerson, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: SamePerson, until: None }
  wakes in 60000 ms
> keys 13 111222 ok
  Sound(Key)
  Entry(Tens(1))
  Sound(Key)
  Entry(Number(Number(13), 0))
  Sound(Key)
  Entry(Number(Number(13), 1))
  Sound(Key)
  Entry(Number(Number(13), 2))
  Sound(Key)
  Entry(Number(Number(13), 3))
  Sound(Key)
  Entry(Number(Number(13), 4))
  Sound(Key)
  Entry(Number(Number(13), 5))
  Sound(Key)
  Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record WrongCode { who: Number(13) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> keys 13 158260 ok
  Sound(Key)
  Entry(Tens(1))
  Sound(Key)
  Entry(Number(Number(13), 0))
  Sound(Key)
  Entry(Number(Number(13), 1))
  Sound(Key)
  Entry(Number(Number(13), 2))
  Sound(Key)
  Entry(Number(Number(13), 3))
  Sound(Key)
  Entry(Number(Number(13), 4))
  Sound(Key)
  Entry(Number(Number(13), 5))
  Sound(Key)
  Entry(Number(Number(13), 6))
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
  Sound(Key)
  Entry(Tens(1))
  Sound(Key)
  Entry(Number(Number(12), 0))
  Sound(Key)
  Entry(Number(Number(12), 1))
  Sound(Key)
  Entry(Number(Number(12), 2))
  Sound(Key)
  Entry(Number(Number(12), 3))
  Sound(Key)
  Entry(Number(Number(12), 4))
  Sound(Key)
  Entry(Number(Number(12), 5))
  Sound(Key)
  Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record FirstOfTwo { who: Number(12), outcome: Duress }
  Alarm(Duress)
  Sound(Key)
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
  wakes in 60000 ms
> keys 13 158260 ok
  Sound(Key)
  Entry(Tens(1))
  Sound(Key)
  Entry(Number(Number(13), 0))
  Sound(Key)
  Entry(Number(Number(13), 1))
  Sound(Key)
  Entry(Number(Number(13), 2))
  Sound(Key)
  Entry(Number(Number(13), 3))
  Sound(Key)
  Entry(Number(Number(13), 4))
  Sound(Key)
  Entry(Number(Number(13), 5))
  Sound(Key)
  Entry(Number(Number(13), 6))
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
  Sound(Key)
  Entry(Tens(1))
  Sound(Key)
  Entry(Number(Number(12), 0))
  Sound(Key)
  Entry(Number(Number(12), 1))
  Sound(Key)
  Entry(Number(Number(12), 2))
  Sound(Key)
  Entry(Number(Number(12), 3))
  Sound(Key)
  Entry(Number(Number(12), 4))
  Sound(Key)
  Entry(Number(Number(12), 5))
  Sound(Key)
  Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record FirstOfTwo { who: Number(12), outcome: Plain }
  Sound(Key)
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
  wakes in 60000 ms
> keys ok 1 13 158260 ok ok
  Sound(Key)
  List { page: 0 }
  Sound(Key)
  Who(HoldShut, Nothing)
  Sound(Key)
  Who(HoldShut, Tens(1))
  Sound(Key)
  Who(HoldShut, Number(Number(13), 0))
  Sound(Key)
  Who(HoldShut, Number(Number(13), 1))
  Sound(Key)
  Who(HoldShut, Number(Number(13), 2))
  Sound(Key)
  Who(HoldShut, Number(Number(13), 3))
  Sound(Key)
  Who(HoldShut, Number(Number(13), 4))
  Sound(Key)
  Who(HoldShut, Number(Number(13), 5))
  Sound(Key)
  Who(HoldShut, Number(Number(13), 6))
  tally Counted(Number(13))
  record Asked { who: Number(13), task: HoldShut, outcome: Plain }
  Sound(Key)
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
  Sound(Key)
  List { page: 0 }
  Sound(Key)
  List { page: 1 }
  Sound(Key)
  List { page: 2 }
  Sound(Key)
  List { page: 3 }
  Sound(Key)
  List { page: 4 }
  Sound(Key)
  Who(SetPolicy, Nothing)
  Sound(Key)
  Who(SetPolicy, Tens(0))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 0))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 1))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 2))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 3))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 4))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 5))
  Sound(Key)
  Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  Sound(Key)
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> keys ok ok ok 3 1 ok 04 306518 ok ok
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 11 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 11 }, shown: Digits { value: 1, count: 1 }, trouble: None })
  Sound(Key)
  Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Nothing })
  Sound(Key)
  Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Tens(0) })
  Sound(Key)
  Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 0) })
  Sound(Key)
  Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 1) })
  Sound(Key)
  Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 2) })
  Sound(Key)
  Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 3) })
  Sound(Key)
  Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 4) })
  Sound(Key)
  Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 5) })
  Sound(Key)
  Form(Second { topic: Task(SetPolicy), whom: Privileged, typed: Number(Number(4), 6) })
  tally Counted(Number(4))
  record Asked { who: Number(4), task: SetPolicy, outcome: Plain }
  Sound(Key)
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
