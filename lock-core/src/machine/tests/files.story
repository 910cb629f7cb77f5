# A steward's session: hello, a file no wider, one for everybody, a wider one that waits, a
# newer one behind it, what was collected; a session that is over takes nothing.
> file 8-17
  wakes in 86400000 ms
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
> collected 2
  wakes in 60000 ms
> collected 1
  wakes in 60000 ms
> collected 900000
  wakes in 60000 ms
> file 8-17
  wakes in 60000 ms
> keys ok
  Form(Done { change: FileLoaded(2), from: None })
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
  wakes in 86339000 ms
> bolt drawn
  Alarm(Tamper)
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  wakes in 60000 ms
> keys ok ok ok ok 2 02 615024 ok
  wakes in 60000 ms
> file 9-16
  wakes in 60000 ms
> keys back
  wakes in 60000 ms
> keys ok ok ok ok 2 02 615024 ok
  wakes in 60000 ms
> file 9-16
  wakes in 60000 ms
> keys ok
  wakes in 60000 ms
> wait 61
  60 s later:
  Alarm(Quiet)
  wakes in 86278000 ms
> keys ok ok ok ok 2 02 615024 ok
  wakes in 86278000 ms
> file 9-18 7-12
  wakes in 86278000 ms
> keys ok
  wakes in 86278000 ms
> wait 61
  wakes in 86217000 ms
> keys ok ok ok ok 2 02 615024 ok
  wakes in 86217000 ms
> file 9-19 7-12
  wakes in 86217000 ms
> keys ok
  wakes in 86217000 ms
> wait 61
  wakes in 86156000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> wait 90000
  wakes in 82800000 ms
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
  tally Brought(Steady(1803981904))
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
> file 6-20 7-12
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(2), second: None }), change: FileLoaded(7) }
  Sound(Accepted)
  Form(Done { change: FileLoaded(7), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 35635000 ms
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
> file - -
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(2), second: None }), change: FileLoaded(8) }
  Sound(Warning)
  record LeftOpen
  Form(Done { change: FileLoaded(8), from: None })
  wakes in 60000 ms
> keys ok
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Open { late: Yes }
  wakes in 82678000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(122) }
  Secured { supply: Good, clock: Valid }
  wakes in 82678000 ms
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
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
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
> wait 599
  wakes in 1000 ms
> wait 2
  1 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 82077000 ms
> file 8-17
  wakes in 82077000 ms
