# A number comes nearer to its limit, others do not; a release is not prolonged.
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
> wait 3
  wakes in 3000 ms
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
  wakes in 3000 ms
> wait 4
  3 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 1000 ms
> keys 20 739204 ok
  . Entry(Tens(2))
  . Entry(Number(Number(20), 0))
  . Entry(Number(Number(20), 1))
  . Entry(Number(Number(20), 2))
  . Entry(Number(Number(20), 3))
  . Entry(Number(Number(20), 4))
  . Entry(Number(Number(20), 5))
  . Entry(Number(Number(20), 6))
  tally Counted(Number(20))
  record WrongCode { who: Number(20) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 1000 ms
> wait 90000
  60 s later:
  Secured { supply: Good, clock: Valid }
  86400 s later:
  tally Faded(Number(20))
  wakes in 82793000 ms
> keys 20 739204 ok
  . Entry(Tens(2))
  . Entry(Number(Number(20), 0))
  . Entry(Number(Number(20), 1))
  . Entry(Number(Number(20), 2))
  . Entry(Number(Number(20), 3))
  . Entry(Number(Number(20), 4))
  . Entry(Number(Number(20), 5))
  . Entry(Number(Number(20), 6))
  tally Counted(Number(20))
  record WrongCode { who: Number(20) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> wait 90000
  60 s later:
  Secured { supply: Good, clock: Valid }
  86400 s later:
  tally Faded(Number(20))
  wakes in 79193000 ms
> keys ok 2 12 739204 ok
  . List { page: 0 }
  . Who(Status, Nothing)
  . Who(Status, Tens(1))
  . Who(Status, Number(Number(12), 0))
  . Who(Status, Number(Number(12), 1))
  . Who(Status, Number(Number(12), 2))
  . Who(Status, Number(Number(12), 3))
  . Who(Status, Number(Number(12), 4))
  . Who(Status, Number(Number(12), 5))
  . Who(Status, Number(Number(12), 6))
  tally Counted(Number(12))
  record Status { who: Number(12), outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Status { supply: None, now: Some(Stamp { date: Date(20880), minute: Minute(660) }), uncollected: 6 }
  wakes in 60000 ms
> keys ok 2 20 739204 ok
  . List { page: 0 }
  . Who(Status, Nothing)
  . Who(Status, Tens(2))
  . Who(Status, Number(Number(20), 0))
  . Who(Status, Number(Number(20), 1))
  . Who(Status, Number(Number(20), 2))
  . Who(Status, Number(Number(20), 3))
  . Who(Status, Number(Number(20), 4))
  . Who(Status, Number(Number(20), 5))
  . Who(Status, Number(Number(20), 6))
  tally Counted(Number(20))
  record WrongCode { who: Number(20) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 79132000 ms
> keys ok ok ok ok ok ok 3 back
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Secured { supply: Good, clock: Valid }
  wakes in 79132000 ms
