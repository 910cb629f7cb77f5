# Values that loosen wait until the next window begins, and the stricter ones hold on.
> lock with a delay
  wakes in 86400000 ms
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
> keys ok 2 1 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 1 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 60) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 60), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
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
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 2 }
  wakes in 59000 ms
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
> keys ok 2 2 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 2 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 120) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 120), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 130
  60 s later:
  Waiting { minutes: 1 }
  119 s later:
  Claimable { minutes: 3 }
  wakes in 49000 ms
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
> wait 5
  wakes in 1000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803891857))
  Open { late: No }
  wakes in 55000 ms
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
> keys ok 2 1 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 1 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 60) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 60), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 28482000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(61) }
  Secured { supply: Good, clock: Valid }
  wakes in 86082000 ms
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
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 1 }
  wakes in 60000 ms
> wait 61
  60 s later:
  Claimable { minutes: 3 }
  wakes in 59000 ms
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
> bolt drawn
  record Opened
  Open { late: No }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> lock for two people
  wakes in 86400000 ms
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
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> keys 12 739204 ok 13 158260 ok
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
> wait 7
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 1000 ms
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
  wakes in 1000 ms
> keys ok 2 3 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 3 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 180) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 180), from: None })
  wakes in 1000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86271000 ms
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
> keys ok 2 2 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 2 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 120) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 120), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 90000
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 82671000 ms
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
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 2 }
  wakes in 60000 ms
> wait 121
  60 s later:
  Waiting { minutes: 1 }
  120 s later:
  Claimable { minutes: 3 }
  wakes in 59000 ms
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
> bolt drawn
  record Opened
  tally Brought(Steady(1803981850))
  Open { late: No }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> lock in use
  wakes in 86400000 ms
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
> keys ok ok ok ok ok 2 1 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 1, count: 1 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 0, count: 0 }, trouble: Some(OutOfBounds) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86339000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(61) }
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
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
> keys ok ok ok ok ok 2 2 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 2, count: 1 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 0, count: 0 }, trouble: Some(OutOfBounds) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
> keys ok ok ok 1 03 927406 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(Remove, Nothing)
  . Who(Remove, Tens(0))
  . Who(Remove, Number(Number(3), 0))
  . Who(Remove, Number(Number(3), 1))
  . Who(Remove, Number(Number(3), 2))
  . Who(Remove, Number(Number(3), 3))
  . Who(Remove, Number(Number(3), 4))
  . Who(Remove, Number(Number(3), 5))
  . Who(Remove, Number(Number(3), 6))
  tally Counted(Number(3))
  record Asked { who: Number(3), task: Remove, outcome: Plain }
  .
  tally Cleared(Number(3))
  Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86217000 ms
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
> keys ok 2 3 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 3 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 180) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 180), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86156000 ms
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
> keys ok ok ok ok ok 2 1 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 1, count: 1 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 0, count: 0 }, trouble: Some(OutOfBounds) })
  wakes in 60000 ms
> wait 90000
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 82556000 ms
