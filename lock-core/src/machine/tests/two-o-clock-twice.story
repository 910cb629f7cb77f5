# A clock set into the hour that comes twice, and into the one that never comes.
> lock where clocks change
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
> keys ok ok ok ok 3 02 615024 ok 31102027 ok 0130 ok 3 ok 2 ok 01 480317 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 31, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 311, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 3110, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 31102, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 311020, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 3110202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 31102027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 13, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 130, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Which, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetClock), field: Which, shown: Digits { value: 0, count: 0 }, trouble: Some(NoChoice) })
  . Form(Ask { topic: Task(SetClock), field: Which, shown: Digits { value: 0, count: 0 }, trouble: None })
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
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(21122), minute: Minute(90) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891600)))
  SetClock(Utc(1824946200))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(Some(Utc(1803891600))) }
  tally Corrected { by: Seconds(0), shift: Shift(21054600) }
  Sound(Accepted)
  Form(Done { change: ClockSet(Some(Utc(1803891600))), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86339000 ms
> keys ok ok ok ok 3 02 615024 ok 31102027 ok 0130 ok 1 ok 01 480317 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 31, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 311, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 3110, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 31102, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 311020, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 3110202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 31102027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 13, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 130, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Which, shown: Digits { value: 0, count: 0 }, trouble: None })
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
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(21122), minute: Minute(90) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891661)))
  SetClock(Utc(1824942600))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(Some(Utc(1824946261))) }
  tally Corrected { by: Seconds(0), shift: Shift(21050939) }
  Sound(Accepted)
  Form(Done { change: ClockSet(Some(Utc(1824946261))), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86339000 ms
> keys ok ok ok ok 3 02 615024 ok 28032027 ok 0130 ok 0230 ok 01 480317 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 28, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 280, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 2803, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 28032, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 280320, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 2803202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 28032027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 13, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 130, count: 4 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: Some(NoTime) })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 2, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 23, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 230, count: 4 }, trouble: None })
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
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20905), minute: Minute(150) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891722)))
  SetClock(Utc(1806197400))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(Some(Utc(1824942661))) }
  tally Corrected { by: Seconds(0), shift: Shift(2305678) }
  Sound(Accepted)
  Form(Done { change: ClockSet(Some(Utc(1824942661))), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86339000 ms
> keys ok ok ok ok 3 02 615024 ok 01012090 ok 0100 ok
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
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 101, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1012, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10120, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 101209, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1012090, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 10, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 100, count: 4 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: Some(NotInItsLife) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86278000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(244) }
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
