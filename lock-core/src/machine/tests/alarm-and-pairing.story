# The alarm line tried, pairing refused with the bolt thrown, files with nothing to load.
> keys ok ok ok ok ok 2 01 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(TestAlarm, Nothing)
  . Who(TestAlarm, Tens(0))
  . Who(TestAlarm, Number(Number(1), 0))
  . Who(TestAlarm, Number(Number(1), 1))
  . Who(TestAlarm, Number(Number(1), 2))
  . Who(TestAlarm, Number(Number(1), 3))
  . Who(TestAlarm, Number(Number(1), 4))
  . Who(TestAlarm, Number(Number(1), 5))
  . Who(TestAlarm, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: TestAlarm, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Confirm { topic: Task(TestAlarm), gist: Plain, trouble: Some(DrawBolt) })
  Sound(Refused)
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> keys ok ok ok ok ok 3 02 615024 ok 01 480317 ok
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
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Tens(0) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 0) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 1) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 2) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 3) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 4) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 5) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(1), 6) })
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Pair, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(0), trouble: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
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
  tally Brought(Steady(1803891722))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok ok ok ok 2 01 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(TestAlarm, Nothing)
  . Who(TestAlarm, Tens(0))
  . Who(TestAlarm, Number(Number(1), 0))
  . Who(TestAlarm, Number(Number(1), 1))
  . Who(TestAlarm, Number(Number(1), 2))
  . Who(TestAlarm, Number(Number(1), 3))
  . Who(TestAlarm, Number(Number(1), 4))
  . Who(TestAlarm, Number(Number(1), 5))
  . Who(TestAlarm, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: TestAlarm, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Confirm { topic: Task(TestAlarm), gist: Plain, trouble: None })
  record Changed { by: Some(People { first: Number(1), second: None }), change: AlarmTested }
  Alarm(Duress)
  Sound(Accepted)
  Form(Done { change: AlarmTested, from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Alarm(Quiet)
  Open { late: No }
  wakes in 86217000 ms
> keys ok ok ok ok ok 3 02 615024 ok 1234 ok 12345 ok 123456 ok back
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
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Tens(1) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(12), 0) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(12), 1) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(12), 2) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(12), 3) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(12), 4) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(12), 5) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(12), 6) })
  . Form(Second { topic: Task(Pair), whom: Warden, typed: Number(Number(12), 7) })
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  WrongCode { left: 3 }
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . TooShort
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
  record Asked { who: Number(2), task: Files, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Files)
  wakes in 60000 ms
> keys 1 ok
  wakes in 60000 ms
> wait 601
  600 s later:
  Open { late: No }
  wakes in 85616000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(662) }
  Secured { supply: Good, clock: Valid }
  wakes in 85616000 ms
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
  record Refused { who: Number(13), why: AlreadyOpen, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: AlreadyOpen, until: None }
  wakes in 6000 ms
> wait 59
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 1000 ms
> wait 2
  1 s later:
  Alarm(Quiet)
  wakes in 85555000 ms
