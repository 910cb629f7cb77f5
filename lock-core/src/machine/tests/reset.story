# With a warden's code, without one, begun and given up; a first warden again.
> keys ok ok ok ok ok ok 1 01 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Who(Reset, Nothing)
  . Who(Reset, Tens(0))
  . Who(Reset, Number(Number(1), 0))
  . Who(Reset, Number(Number(1), 1))
  . Who(Reset, Number(Number(1), 2))
  . Who(Reset, Number(Number(1), 3))
  . Who(Reset, Number(Number(1), 4))
  . Who(Reset, Number(Number(1), 5))
  . Who(Reset, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Reset, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Confirm { topic: Task(Reset), gist: Plain, trouble: Some(DrawBolt) })
  Sound(Refused)
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
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
  tally Brought(Steady(1803891661))
  Open { late: No }
  wakes in 60000 ms
> switch on
  wakes in 60000 ms
> keys ok ok ok ok ok ok 1 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Who(Reset, Nothing)
  . Form(Confirm { topic: SlowReset, gist: Plain, trouble: None })
  record Changed { by: None, change: ResetBegun }
  Sound(Accepted)
  Form(Done { change: ResetBegun, from: None })
  wakes in 60000 ms
> wait 70
  60 s later:
  Open { late: No }
  wakes in 86269000 ms
> switch off
  record Changed { by: None, change: ResetCancelled }
  wakes in 86269000 ms
> switch on
  wakes in 86269000 ms
> keys ok ok ok ok ok ok 1 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Who(Reset, Nothing)
  . Form(Confirm { topic: SlowReset, gist: Plain, trouble: None })
  record Changed { by: None, change: ResetBegun }
  Sound(Accepted)
  Form(Done { change: ResetBegun, from: None })
  wakes in 60000 ms
> wait 86399
  60 s later:
  Open { late: No }
  wakes in 1000 ms
> wait 10
  1 s later:
  edit Changed { by: None, change: Reset }
  tally SettingUp
  Service(Blank)
  wakes in 86260000 ms
> bolt thrown
  wakes in 86260000 ms
> bolt drawn
  wakes in 86260000 ms
> keys ok 07 ok 480317 ok 480317 ok ok
  . Form(Ask { topic: FirstWarden, field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: FirstWarden, field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: FirstWarden, field: Number, shown: Digits { value: 7, count: 2 }, trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(6), trouble: None })
  . Form(Confirm { topic: FirstWarden, gist: Holder(Number(7)), trouble: None })
  edit Changed { by: None, change: Commissioned(Number(7)) }
  Sound(Accepted)
  tally Cleared(Number(7))
  Form(Done { change: Commissioned(Number(7)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86199000 ms
> keys ok ok 1 07 480317 ok 12 ok 3 9 739204 ok 739204 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(7), 0))
  . Who(Enrol, Number(Number(7), 1))
  . Who(Enrol, Number(Number(7), 2))
  . Who(Enrol, Number(Number(7), 3))
  . Who(Enrol, Number(Number(7), 4))
  . Who(Enrol, Number(Number(7), 5))
  . Who(Enrol, Number(Number(7), 6))
  tally Counted(Number(7))
  record Asked { who: Number(7), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(7))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(6), trouble: None })
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(12), role: Keyholder, opens: No, follows: Always }, trouble: None })
  edit Changed { by: Some(People { first: Number(7), second: None }), change: Enrolled(Number(12), Keyholder) }
  Sound(Accepted)
  tally Cleared(Number(12))
  tally SetUp
  Form(Done { change: Enrolled(Number(12), Keyholder), from: None })
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(61) }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> switch off
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
> switch on
  wakes in 60000 ms
> keys ok ok ok ok ok ok 1 07 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Who(Reset, Nothing)
  . Who(Reset, Tens(0))
  . Who(Reset, Number(Number(7), 0))
  . Who(Reset, Number(Number(7), 1))
  . Who(Reset, Number(Number(7), 2))
  . Who(Reset, Number(Number(7), 3))
  . Who(Reset, Number(Number(7), 4))
  . Who(Reset, Number(Number(7), 5))
  . Who(Reset, Number(Number(7), 6))
  tally Counted(Number(7))
  record Asked { who: Number(7), task: Reset, outcome: Plain }
  .
  tally Cleared(Number(7))
  Form(Confirm { topic: Task(Reset), gist: Plain, trouble: None })
  edit Changed { by: Some(People { first: Number(7), second: None }), change: Reset }
  Sound(Accepted)
  tally SettingUp
  Service(Blank)
  wakes in 60000 ms
> power cut
  record PoweredUp { unrecorded: 0 }
  Service(Blank)
  wakes in 60000 ms
> keys ok 01 ok 480317 ok 480317 ok ok
  . Form(Ask { topic: FirstWarden, field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: FirstWarden, field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: FirstWarden, field: Number, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: FirstWarden, field: Again, shown: Dots(6), trouble: None })
  . Form(Confirm { topic: FirstWarden, gist: Holder(Number(1)), trouble: None })
  edit Changed { by: None, change: Commissioned(Number(1)) }
  Sound(Accepted)
  tally Cleared(Number(1))
  Form(Done { change: Commissioned(Number(1)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86339000 ms
