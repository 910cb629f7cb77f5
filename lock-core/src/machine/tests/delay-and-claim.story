# A delay of three minutes, set at the opened lock; wait, claim, lapse, a permit that ends.
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
> keys ok 2 3 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 3 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 180) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 180), from: None })
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
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 3 }
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
  record Refused { who: Number(12), why: Waiting, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Waiting, until: None }
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
  record Refused { who: Number(13), why: Waiting, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: Waiting, until: None }
  wakes in 60000 ms
> wait 181
  60 s later:
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 59000 ms
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
  record Refused { who: Number(13), why: OtherPerson, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: OtherPerson, until: None }
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
  record Released { people: People { first: Number(12), second: None }, outcome: Duress }
  Alarm(Duress)
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
> wait 180
  60 s later:
  Alarm(Quiet)
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 60000 ms
> wait 180
  60 s later:
  Claimable { minutes: 2 }
  120 s later:
  Claimable { minutes: 1 }
  180 s later:
  record Lapsed
  Secured { supply: Good, clock: Valid }
  wakes in 85789000 ms
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
> inhibit set
  record Cancelled { why: Inhibit }
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
  record Refused { who: Number(12), why: Inhibit, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Inhibit, until: None }
  wakes in 60000 ms
> inhibit clear
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
  Waiting { minutes: 3 }
  wakes in 60000 ms
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
> wait 28080
  60 s later:
  Alarm(Quiet)
  wakes in 57709000 ms
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
  record Refused { who: Number(12), why: Late, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Late, until: None }
  wakes in 60000 ms
> wait 400
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 57309000 ms
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
  record Refused { who: Number(12), why: Closed, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Closed, until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
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
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
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
> clock lost
  tally ClockDoubt(Some(Steady(1803920751)))
  record ClockInvalid
  wakes in 60000 ms
> wait 181
  60 s later:
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 59000 ms
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
  tally Brought(Steady(1803920932))
  Open { late: No }
  wakes in 60000 ms
