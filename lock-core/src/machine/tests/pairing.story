# A pairing key by hand: groups mistyped, a key that is too old, one for a lock without any;
# a courier only where there is a key.
> lock that has no key
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
> keys ok ok 1 01 480317 ok 32 ok 4 3 9 ok 842613 ok 842613 ok back
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
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: Some(NotPaired) })
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
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(32), role: Keyholder, opens: No, follows: Always }, trouble: None })
  . Open { late: No }
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
> keys 123456 ok
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(6), trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(0), trouble: Some(Group) })
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
  wakes in 86339000 ms
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
  record Refused { who: Number(32), why: AlreadyOpen, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(32))
  Refused { why: AlreadyOpen, until: None }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(122) }
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
  Sound(Refused)
  Form(Ask { topic: Task(Pair), field: Group { index: 0 }, shown: Dots(0), trouble: Some(OldKey) })
  wakes in 60000 ms
> generation 2
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
  edit Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: Paired(2) }
  Sound(Accepted)
  Form(Done { change: Paired(2), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 28617000 ms
> keys ok ok ok 2 01 480317 ok 32 ok back
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(ChangeRole, Nothing)
  . Who(ChangeRole, Tens(0))
  . Who(ChangeRole, Number(Number(1), 0))
  . Who(ChangeRole, Number(Number(1), 1))
  . Who(ChangeRole, Number(Number(1), 2))
  . Who(ChangeRole, Number(Number(1), 3))
  . Who(ChangeRole, Number(Number(1), 4))
  . Who(ChangeRole, Number(Number(1), 5))
  . Who(ChangeRole, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: ChangeRole, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 32, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Courier) })
  . Open { late: No }
  wakes in 60000 ms
> keys ok ok ok 2 01 480317 ok 12 ok 4 7 3 ok back
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(ChangeRole, Nothing)
  . Who(ChangeRole, Tens(0))
  . Who(ChangeRole, Number(Number(1), 0))
  . Who(ChangeRole, Number(Number(1), 1))
  . Who(ChangeRole, Number(Number(1), 2))
  . Who(ChangeRole, Number(Number(1), 3))
  . Who(ChangeRole, Number(Number(1), 4))
  . Who(ChangeRole, Number(Number(1), 5))
  . Who(ChangeRole, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: ChangeRole, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeRole), field: Role, shown: Digits { value: 0, count: 0 }, trouble: Some(Courier) })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeRole), field: Role, shown: Digits { value: 0, count: 0 }, trouble: Some(NoChoice) })
  . Form(Ask { topic: Task(ChangeRole), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Open { late: No }
  wakes in 60000 ms
> keys ok ok ok 3 01 480317 ok 32 ok 1 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(ChooseTimetable, Nothing)
  . Who(ChooseTimetable, Tens(0))
  . Who(ChooseTimetable, Number(Number(1), 0))
  . Who(ChooseTimetable, Number(Number(1), 1))
  . Who(ChooseTimetable, Number(Number(1), 2))
  . Who(ChooseTimetable, Number(Number(1), 3))
  . Who(ChooseTimetable, Number(Number(1), 4))
  . Who(ChooseTimetable, Number(Number(1), 5))
  . Who(ChooseTimetable, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: ChooseTimetable, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 32, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Confirm { topic: Task(ChooseTimetable), gist: Follows(Number(32), Timetable(A)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: TimetableChosen(Number(32), Timetable(A)) }
  Sound(Accepted)
  Form(Done { change: TimetableChosen(Number(32), Timetable(A)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 28556000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(122) }
  Secured { supply: Good, clock: Valid }
  wakes in 86156000 ms
