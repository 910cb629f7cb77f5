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
  tally Collected(Seq(2))
  record Changed { by: Some(People { first: Number(2), second: None }), change: Collected(Seq(2)) }
  Sound(Accepted)
  wakes in 60000 ms
> collected 1
  wakes in 60000 ms
> collected 900000
  tally Collected(Seq(3))
  record Changed { by: Some(People { first: Number(2), second: None }), change: Collected(Seq(3)) }
  Sound(Accepted)
  wakes in 60000 ms
> file 8-17
  . Form(Confirm { topic: Task(Files), gist: File { version: 2, fingerprint: 43275810 }, trouble: None })
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(2), second: None }), change: FileLoaded(2) }
  Sound(Accepted)
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
  tally Counted(Number(12))
  record Released { people: People { first: Number(12), second: None }, outcome: Plain }
  tally Cleared(Number(12))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803891661))
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
> file 9-16
  . Form(Confirm { topic: Task(Files), gist: File { version: 3, fingerprint: 50640084 }, trouble: None })
  wakes in 60000 ms
> keys back
  . Secured { supply: Good, clock: Valid }
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
> file 9-16
  . Form(Confirm { topic: Task(Files), gist: File { version: 4, fingerprint: 57362798 }, trouble: None })
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(2), second: None }), change: FileLoaded(4) }
  Sound(Accepted)
  Form(Done { change: FileLoaded(4), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
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
> file 9-18 7-12
  . Form(Confirm { topic: Task(Files), gist: File { version: 5, fingerprint: 85989579 }, trouble: None })
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(2), second: None }), change: FileWaits(5) }
  Sound(Accepted)
  Form(Done { change: FileWaits(5), from: Some(Stamp { date: Date(20879), minute: Minute(540) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86217000 ms
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
> file 9-19 7-12
  . Form(Confirm { topic: Task(Files), gist: File { version: 6, fingerprint: 51558547 }, trouble: None })
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(2), second: None }), change: FileWaits(6) }
  Sound(Accepted)
  Form(Done { change: FileWaits(6), from: Some(Stamp { date: Date(20879), minute: Minute(540) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86156000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> wait 90000
  86096 s later:
  edit Changed { by: None, change: FileLoaded(6) }
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
  . Form(Confirm { topic: Task(Files), gist: File { version: 7, fingerprint: 91180292 }, trouble: None })
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
  . Form(Confirm { topic: Task(Files), gist: File { version: 8, fingerprint: 56922937 }, trouble: None })
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
