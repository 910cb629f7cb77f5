# A courier: enrolled, opens once, a code again, one further on, one too far, with a delay.
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
> keys ok ok 1 01 480317 ok 32 ok 4 1 ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(1), 0))
  . Who(Enrol, Number(Number(1), 1))
  . Who(Enrol, Number(Number(1), 2))
  . Who(Enrol, Number(Number(1), 3))
  . Who(Enrol, Number(Number(1), 4))
  . Who(Enrol, Number(Number(1), 5))
  . Who(Enrol, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 32, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(32), role: Courier, opens: No, follows: Timetable(A) }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(32), Courier) }
  Sound(Accepted)
  tally Cleared(Number(32))
  Form(Done { change: Enrolled(Number(32), Courier), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86339000 ms
> keys ok ok 1 01 480317 ok 33 ok 4 1 ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(1), 0))
  . Who(Enrol, Number(Number(1), 1))
  . Who(Enrol, Number(Number(1), 2))
  . Who(Enrol, Number(Number(1), 3))
  . Who(Enrol, Number(Number(1), 4))
  . Who(Enrol, Number(Number(1), 5))
  . Who(Enrol, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 33, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(33), role: Courier, opens: No, follows: Timetable(A) }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(33), Courier) }
  Sound(Accepted)
  tally Cleared(Number(33))
  Form(Done { change: Enrolled(Number(33), Courier), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86278000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(122) }
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
> courier 32 0
  . Entry(Tens(3))
  . Entry(Number(Number(32), 0))
  . Entry(Number(Number(32), 1))
  . Entry(Number(Number(32), 2))
  . Entry(Number(Number(32), 3))
  . Entry(Number(Number(32), 4))
  . Entry(Number(Number(32), 5))
  . Entry(Number(Number(32), 6))
  . Entry(Number(Number(32), 7))
  tally Counted(Number(32))
  edit Released { people: People { first: Number(32), second: None }, outcome: Plain }
  tally Cleared(Number(32))
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
> courier 32 0
  . Entry(Tens(3))
  . Entry(Number(Number(32), 0))
  . Entry(Number(Number(32), 1))
  . Entry(Number(Number(32), 2))
  . Entry(Number(Number(32), 3))
  . Entry(Number(Number(32), 4))
  . Entry(Number(Number(32), 5))
  . Entry(Number(Number(32), 6))
  . Entry(Number(Number(32), 7))
  tally Counted(Number(32))
  record WrongCode { who: Number(32) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> courier 32 3
  . Entry(Tens(3))
  . Entry(Number(Number(32), 0))
  . Entry(Number(Number(32), 1))
  . Entry(Number(Number(32), 2))
  . Entry(Number(Number(32), 3))
  . Entry(Number(Number(32), 4))
  . Entry(Number(Number(32), 5))
  . Entry(Number(Number(32), 6))
  . Entry(Number(Number(32), 7))
  tally Counted(Number(32))
  edit Released { people: People { first: Number(32), second: None }, outcome: Plain }
  tally Cleared(Number(32))
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
> courier 32 40
  . Entry(Tens(3))
  . Entry(Number(Number(32), 0))
  . Entry(Number(Number(32), 1))
  . Entry(Number(Number(32), 2))
  . Entry(Number(Number(32), 3))
  . Entry(Number(Number(32), 4))
  . Entry(Number(Number(32), 5))
  . Entry(Number(Number(32), 6))
  . Entry(Number(Number(32), 7))
  tally Counted(Number(32))
  record WrongCode { who: Number(32) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> wait 10
  wakes in 50000 ms
> keys ok 3 32
  . List { page: 0 }
  . Who(ChangeCode, Nothing)
  . Who(ChangeCode, Tens(3))
  . Who(ChangeCode, Number(Number(32), 0))
  wakes in 20000 ms
> wait 61
  20 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86207000 ms
> courier 33 0
  . Entry(Tens(3))
  . Entry(Number(Number(33), 0))
  . Entry(Number(Number(33), 1))
  . Entry(Number(Number(33), 2))
  . Entry(Number(Number(33), 3))
  . Entry(Number(Number(33), 4))
  . Entry(Number(Number(33), 5))
  . Entry(Number(Number(33), 6))
  . Entry(Number(Number(33), 7))
  tally Counted(Number(33))
  edit Released { people: People { first: Number(33), second: None }, outcome: Plain }
  tally Cleared(Number(33))
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
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86139000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(61) }
  Secured { supply: Good, clock: Valid }
  wakes in 86139000 ms
> courier 32 6
  . Entry(Tens(3))
  . Entry(Number(Number(32), 0))
  . Entry(Number(Number(32), 1))
  . Entry(Number(Number(32), 2))
  . Entry(Number(Number(32), 3))
  . Entry(Number(Number(32), 4))
  . Entry(Number(Number(32), 5))
  . Entry(Number(Number(32), 6))
  . Entry(Number(Number(32), 7))
  tally Counted(Number(32))
  edit DelayStarted { people: People { first: Number(32), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(32))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> wait 190
  60 s later:
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 50000 ms
> courier 32 8
  . Entry(Tens(3))
  . Entry(Number(Number(32), 0))
  . Entry(Number(Number(32), 1))
  . Entry(Number(Number(32), 2))
  . Entry(Number(Number(32), 3))
  . Entry(Number(Number(32), 4))
  . Entry(Number(Number(32), 5))
  . Entry(Number(Number(32), 6))
  . Entry(Number(Number(32), 7))
  tally Counted(Number(32))
  record WrongCode { who: Number(32) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> courier 32 6
  . Entry(Tens(3))
  . Entry(Number(Number(32), 0))
  . Entry(Number(Number(32), 1))
  . Entry(Number(Number(32), 2))
  . Entry(Number(Number(32), 3))
  . Entry(Number(Number(32), 4))
  . Entry(Number(Number(32), 5))
  . Entry(Number(Number(32), 6))
  . Entry(Number(Number(32), 7))
  tally Counted(Number(32))
  record Released { people: People { first: Number(32), second: None }, outcome: Plain }
  tally Cleared(Number(32))
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
> wait 190
  60 s later:
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 50000 ms
> courier 33 2
  . Entry(Tens(3))
  . Entry(Number(Number(33), 0))
  . Entry(Number(Number(33), 1))
  . Entry(Number(Number(33), 2))
  . Entry(Number(Number(33), 3))
  . Entry(Number(Number(33), 4))
  . Entry(Number(Number(33), 5))
  . Entry(Number(Number(33), 6))
  . Entry(Number(Number(33), 7))
  tally Counted(Number(33))
  record Refused { who: Number(33), why: OtherPerson, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(33))
  Refused { why: OtherPerson, until: None }
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
> bolt drawn
  record Opened
  Open { late: No }
  wakes in 60000 ms
> keys ok ok ok ok ok 3 02 615024 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(Pair, Nothing)
  . Who(Pair, Tens(0))
  . Who(Pair, Number(Number(2), 0))
  . Who(Pair, Number(Number(2), 1))
  . Who(Pair, Number(Number(2), 2))
  . Who(Pair, Number(Number(2), 3))
  . Who(Pair, Number(Number(2), 4))
  . Who(Pair, Number(Number(2), 5))
  . Who(Pair, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: Pair, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Second { topic: Task(Pair), whom: Warden, typed: Nothing })
  wakes in 60000 ms
> generation 2
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Tens(0) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 0) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 1) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 2) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 3) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 4) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 5) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 6) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 7) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 8) })
  tally Counted(Number(1))
  record WrongCode { who: Number(1) }
  Sound(Refused)
  WrongCode { left: 3 }
  . Entry(Tens(4))
  . Entry(Number(Number(44), 0))
  . Entry(Number(Number(44), 1))
  . Entry(Number(Number(44), 2))
  . Entry(Number(Number(44), 3))
  . Entry(Number(Number(44), 4))
  . TooShort
  . Entry(Tens(4))
  . Entry(Number(Number(44), 0))
  . Entry(Number(Number(44), 1))
  . Entry(Number(Number(44), 2))
  . Entry(Number(Number(44), 3))
  . Entry(Number(Number(44), 4))
  . TooShort
  . Entry(Tens(4))
  . Entry(Number(Number(44), 0))
  . Entry(Number(Number(44), 1))
  . Entry(Number(Number(44), 2))
  . Entry(Number(Number(44), 3))
  . Entry(Number(Number(44), 4))
  . TooShort
  . Entry(Tens(4))
  . Entry(Number(Number(44), 0))
  . Entry(Number(Number(44), 1))
  . Entry(Number(Number(44), 2))
  . Entry(Number(Number(44), 3))
  . Entry(Number(Number(44), 4))
  . TooShort
  . Entry(Tens(4))
  . Entry(Number(Number(44), 0))
  . Entry(Number(Number(44), 1))
  . Entry(Number(Number(44), 2))
  . Entry(Number(Number(44), 3))
  . Entry(Number(Number(44), 4))
  . TooShort
  . Entry(Tens(4))
  . Entry(Number(Number(44), 0))
  . Entry(Number(Number(44), 1))
  . Entry(Number(Number(44), 2))
  . Entry(Number(Number(44), 3))
  . Entry(Number(Number(44), 4))
  . TooShort
  wakes in 60000 ms
> keys ok
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Open { late: No }
  wakes in 28098000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(61) }
  Secured { supply: Good, clock: Valid }
  wakes in 85698000 ms
> courier 33 9
  . Entry(Tens(3))
  . Entry(Number(Number(33), 0))
  . Entry(Number(Number(33), 1))
  . Entry(Number(Number(33), 2))
  . Entry(Number(Number(33), 3))
  . Entry(Number(Number(33), 4))
  . Entry(Number(Number(33), 5))
  . Entry(Number(Number(33), 6))
  . Entry(Number(Number(33), 7))
  tally Counted(Number(33))
  edit DelayStarted { people: People { first: Number(33), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(33))
  Waiting { minutes: 3 }
  wakes in 60000 ms
