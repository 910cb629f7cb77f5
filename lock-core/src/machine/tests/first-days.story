# From the factory: the first warden, people, the clock, somebody who could open.
> lock from the factory
  wakes in 86400000 ms
> keys 13 158260 ok
  . Form(Ask { topic: FirstWarden, field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> wait 100
  60 s later:
  Service(Blank)
  wakes in 86300000 ms
> keys ok 01 ok 111111 ok 480317 ok 480318 ok 480317 ok 480317 ok ok
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
  Sound(Refused)
  Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(0), trouble: Some(Guessable(FewDigits)) })
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
  Sound(Refused)
  Form(Ask { topic: FirstWarden, field: NewCode, shown: Dots(0), trouble: Some(Differ) })
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
  wakes in 86239000 ms
> power cut
  record PoweredUp { unrecorded: 0 }
  Open { late: No }
  wakes in 86400000 ms
> keys ok ok ok ok 3 01 480317 ok 01032027 ok 0910 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(SetClock, Nothing)
  . Who(SetClock, Tens(0))
  . Who(SetClock, Number(Number(1), 0))
  . Who(SetClock, Number(Number(1), 1))
  . Who(SetClock, Number(Number(1), 2))
  . Who(SetClock, Number(Number(1), 3))
  . Who(SetClock, Number(Number(1), 4))
  . Who(SetClock, Number(Number(1), 5))
  . Who(SetClock, Number(Number(1), 6))
  tally Counted(Number(1))
  record Refused { who: Number(1), why: Right, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(1))
  Refused { why: Right, until: None }
  . Entry(Tens(0))
  . Entry(Number(Number(1), 0))
  . Entry(Number(Number(1), 1))
  . Entry(Number(Number(1), 2))
  . Entry(Number(Number(1), 3))
  . Entry(Number(Number(1), 4))
  . Entry(Number(Number(1), 5))
  . Entry(Number(Number(1), 6))
  tally Counted(Number(1))
  record WrongCode { who: Number(1) }
  Sound(Refused)
  WrongCode { left: 3 }
  . Entry(Tens(0))
  . Entry(Number(Number(9), 0))
  . Entry(Number(Number(9), 1))
  . Entry(Number(Number(9), 2))
  . TooShort
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Open { late: No }
  wakes in 86339000 ms
> keys ok ok 1 01 480317 ok 02 ok 5 615024 ok 615024 ok ok
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
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 2, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
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
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(2), role: Steward, opens: No, follows: Always }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(2), Steward) }
  Sound(Accepted)
  tally Cleared(Number(2))
  Form(Done { change: Enrolled(Number(2), Steward), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86278000 ms
> keys ok ok 1 01 480317 ok 12 ok 3 1 739204 ok 739204 ok ok
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
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(12), role: Keyholder, opens: No, follows: Timetable(A) }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(12), Keyholder) }
  Sound(Accepted)
  tally Cleared(Number(12))
  Form(Done { change: Enrolled(Number(12), Keyholder), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86217000 ms
> bolt thrown
  wakes in 86217000 ms
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
  record Refused { who: Number(12), why: AlreadyOpen, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: AlreadyOpen, until: None }
  wakes in 60000 ms
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
> generation 1
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 1 }, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 1 }, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 1 }, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 1 }, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 1 }, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 1 }, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 1 }, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 2 }, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 2 }, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 2 }, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 2 }, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 2 }, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 2 }, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 2 }, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 3 }, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 3 }, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 3 }, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 3 }, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 3 }, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 3 }, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 3 }, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 4 }, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 4 }, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 4 }, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 4 }, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 4 }, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 4 }, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 4 }, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 5 }, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 5 }, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 5 }, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 5 }, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 5 }, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 5 }, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 5 }, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 6 }, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 6 }, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 6 }, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 6 }, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 6 }, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 6 }, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 6 }, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 7 }, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 7 }, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 7 }, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 7 }, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 7 }, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 7 }, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 7 }, shown: Dots(6), trouble: None })
  . Form(Confirm { topic: Task(Pair), gist: Plain, trouble: None })
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: Paired(1) }
  Sound(Accepted)
  Form(Done { change: Paired(1), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86156000 ms
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
> file 8-17
  . Form(Confirm { topic: Task(Files), gist: File { version: 1, fingerprint: 7656128 }, trouble: None })
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(2), second: None }), change: FileLoaded(1) }
  Sound(Accepted)
  tally SetUp
  Form(Done { change: FileLoaded(1), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86095000 ms
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
  record Refused { who: Number(12), why: AlreadyOpen, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: AlreadyOpen, until: None }
  wakes in 60000 ms
> bolt drawn
  wakes in 60000 ms
> bolt thrown
  wakes in 60000 ms
> switch off
  wakes in 60000 ms
> keys ok ok 1 01 480317 ok 13 ok 3 1 158260 ok 158260 ok ok
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
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
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
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(13), role: Keyholder, opens: No, follows: Timetable(A) }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(13), Keyholder) }
  Sound(Accepted)
  tally Cleared(Number(13))
  Form(Done { change: Enrolled(Number(13), Keyholder), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86034000 ms
> power cut
  record PoweredUp { unrecorded: 0 }
  Open { late: No }
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
  record Refused { who: Number(13), why: AlreadyOpen, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: AlreadyOpen, until: None }
  wakes in 60000 ms
