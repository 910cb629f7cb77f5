# While a delay runs: the delay longer, shorter, its holder suspended, a file, the clock set.
> lock with a delay
  wakes in 86400000 ms
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
> keys ok 2 5 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 5, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 5 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 300) }
  Sound(Accepted)
  record Cancelled { why: Changed }
  Form(Done { change: PolicySet(4, 300), from: None })
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
  Waiting { minutes: 5 }
  wakes in 60000 ms
> wait 310
  60 s later:
  Waiting { minutes: 4 }
  120 s later:
  Waiting { minutes: 3 }
  180 s later:
  Waiting { minutes: 2 }
  240 s later:
  Waiting { minutes: 1 }
  300 s later:
  Claimable { minutes: 3 }
  wakes in 50000 ms
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
> wait 61
  60 s later:
  Claimable { minutes: 2 }
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
> bolt drawn
  record Opened
  tally Brought(Steady(1803892032))
  Open { late: No }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
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
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 2 }
  wakes in 60000 ms
> wait 30
  wakes in 30000 ms
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
  record Cancelled { why: Changed }
  Form(Done { change: PolicySet(11, 2), from: None })
  wakes in 60000 ms
> wait 70
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 85868000 ms
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
  record Asked { who: Number(2), task: Files, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Files)
  wakes in 60000 ms
> file 8-9
  . Form(Confirm { topic: Task(Files), gist: File { version: 1, fingerprint: 73420294 }, trouble: None })
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(2), second: None }), change: FileLoaded(1) }
  Sound(Accepted)
  Form(Done { change: FileLoaded(1), from: None })
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
  record FirstOfTwo { who: Number(13), outcome: Plain }
  .
  tally Cleared(Number(13))
  SecondPerson { first: Number(13) }
  wakes in 60000 ms
> wait 61
  60 s later:
  record Lapsed
  Secured { supply: Good, clock: Valid }
  wakes in 85807000 ms
> keys ok ok ok ok 3 02 615024 ok 01032027 ok 1630 ok 01 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(SetClock, Nothing)
  . Who(SetClock, Tens(0))
  . Who(SetClock, Number(Number(2), 0))
  . Who(SetClock, Number(Number(2), 1))
  . Who(SetClock, Number(Number(2), 2))
  . Who(SetClock, Number(Number(2), 3))
  . Who(SetClock, Number(Number(2), 4))
  . Who(SetClock, Number(Number(2), 5))
  . Who(SetClock, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10320, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 16, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 163, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1630, count: 4 }, trouble: None })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Nothing })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Tens(0) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 0) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 1) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 2) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 3) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 4) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 5) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 6) })
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20878), minute: Minute(990) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803892193)))
  SetClock(Utc(1803918600))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(Some(Utc(1803892193))) }
  tally ClockSet(Shift(26407))
  Sound(Accepted)
  Form(Done { change: ClockSet(Some(Utc(1803892193))), from: None })
  wakes in 60000 ms
> wait 3000
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 25800000 ms
> lock with a delay
  wakes in 86400000 ms
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
> wait 10
  wakes in 50000 ms
> keys ok ok ok ok 3 02 615024 ok 01032027 ok 1658 ok 01 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(SetClock, Nothing)
  . Who(SetClock, Tens(0))
  . Who(SetClock, Number(Number(2), 0))
  . Who(SetClock, Number(Number(2), 1))
  . Who(SetClock, Number(Number(2), 2))
  . Who(SetClock, Number(Number(2), 3))
  . Who(SetClock, Number(Number(2), 4))
  . Who(SetClock, Number(Number(2), 5))
  . Who(SetClock, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10320, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 16, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 165, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1658, count: 4 }, trouble: None })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Nothing })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Tens(0) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 0) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 1) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 2) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 3) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 4) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 5) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 6) })
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20878), minute: Minute(1018) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891610)))
  SetClock(Utc(1803920280))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(Some(Utc(1803891610))) }
  tally ClockSet(Shift(28670))
  Sound(Accepted)
  record Cancelled { why: Clock }
  Form(Done { change: ClockSet(Some(Utc(1803891610))), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 28739000 ms
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
  record DelayStarted { people: People { first: Number(13), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(13))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> wait 181
  60 s later:
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 59000 ms
> keys ok ok 2 01 480317 ok 13 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Suspend, Nothing)
  . Who(Suspend, Tens(0))
  . Who(Suspend, Number(Number(1), 0))
  . Who(Suspend, Number(Number(1), 1))
  . Who(Suspend, Number(Number(1), 2))
  . Who(Suspend, Number(Number(1), 3))
  . Who(Suspend, Number(Number(1), 4))
  . Who(Suspend, Number(Number(1), 5))
  . Who(Suspend, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Suspend, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Suspend), gist: Holder(Number(13)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Suspended(Number(13)) }
  Sound(Accepted)
  record Cancelled { why: Changed }
  Form(Done { change: Suspended(Number(13)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 28497000 ms
> lock with a delay
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
  record DelayStarted { people: People { first: Number(13), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(13))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> wait 100
  60 s later:
  Waiting { minutes: 2 }
  wakes in 20000 ms
> bolt drawn
  Alarm(Tamper)
  record Forced
  record Cancelled { why: Forced }
  Open { late: No }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
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
  record DelayStarted { people: People { first: Number(13), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(13))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> wait 185
  60 s later:
  Alarm(Quiet)
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 55000 ms
> bolt drawn
  Alarm(Tamper)
  record Forced
  record Cancelled { why: Forced }
  Open { late: No }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
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
  record DelayStarted { people: People { first: Number(13), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(13))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> wait 185
  60 s later:
  Alarm(Quiet)
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 55000 ms
> keys 13 158261 ok
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record Released { people: People { first: Number(13), second: None }, outcome: Duress }
  Alarm(Duress)
  tally Cleared(Number(13))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> wait 3
  wakes in 3000 ms
> inhibit set
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 2000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803892073))
  Open { late: No }
  wakes in 57000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 57000 ms
