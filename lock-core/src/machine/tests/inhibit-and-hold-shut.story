# Inhibit, a hold-shut, and what each does to a release.
> inhibit set
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
  record Refused { who: Number(13), why: Inhibit, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: Inhibit, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> inhibit clear
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
> inhibit set
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 2000 ms
> wait 1
  wakes in 1000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803891662))
  Open { late: No }
  wakes in 59000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 59000 ms
> inhibit clear
  wakes in 59000 ms
> keys ok 1 02 615024 ok
  . List { page: 0 }
  . Who(HoldShut, Nothing)
  . Who(HoldShut, Tens(0))
  . Who(HoldShut, Number(Number(2), 0))
  . Who(HoldShut, Number(Number(2), 1))
  . Who(HoldShut, Number(Number(2), 2))
  . Who(HoldShut, Number(Number(2), 3))
  . Who(HoldShut, Number(Number(2), 4))
  . Who(HoldShut, Number(Number(2), 5))
  . Who(HoldShut, Number(Number(2), 6))
  tally Counted(Number(2))
  record Refused { who: Number(2), why: Right, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(2))
  Refused { why: Right, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86277000 ms
> keys ok 1 13 158260 ok back
  . List { page: 0 }
  . Who(HoldShut, Nothing)
  . Who(HoldShut, Tens(1))
  . Who(HoldShut, Number(Number(13), 0))
  . Who(HoldShut, Number(Number(13), 1))
  . Who(HoldShut, Number(Number(13), 2))
  . Who(HoldShut, Number(Number(13), 3))
  . Who(HoldShut, Number(Number(13), 4))
  . Who(HoldShut, Number(Number(13), 5))
  . Who(HoldShut, Number(Number(13), 6))
  tally Counted(Number(13))
  record Asked { who: Number(13), task: HoldShut, outcome: Plain }
  .
  tally Cleared(Number(13))
  Form(Confirm { topic: Task(HoldShut), gist: Hold(Stamp { date: Date(20879), minute: Minute(480) }), trouble: None })
  . Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> keys ok 1 13 158260 ok
  . List { page: 0 }
  . Who(HoldShut, Nothing)
  . Who(HoldShut, Tens(1))
  . Who(HoldShut, Number(Number(13), 0))
  . Who(HoldShut, Number(Number(13), 1))
  . Who(HoldShut, Number(Number(13), 2))
  . Who(HoldShut, Number(Number(13), 3))
  . Who(HoldShut, Number(Number(13), 4))
  . Who(HoldShut, Number(Number(13), 5))
  . Who(HoldShut, Number(Number(13), 6))
  tally Counted(Number(13))
  record Asked { who: Number(13), task: HoldShut, outcome: Plain }
  .
  tally Cleared(Number(13))
  Form(Confirm { topic: Task(HoldShut), gist: Hold(Stamp { date: Date(20879), minute: Minute(480) }), trouble: None })
  wakes in 60000 ms
> wait 59
  wakes in 1000 ms
> keys ok
  tally HeldShut(Steady(1803974400))
  record HeldShut { who: Number(13), until: Utc(1803974400) }
  Sound(Accepted)
  HoldSet { until: Stamp { date: Date(20879), minute: Minute(480) } }
  wakes in 1000 ms
> keys ok 1 12 739204 ok ok
  . List { page: 0 }
  . Who(HoldShut, Nothing)
  . Who(HoldShut, Tens(1))
  . Who(HoldShut, Number(Number(12), 0))
  . Who(HoldShut, Number(Number(12), 1))
  . Who(HoldShut, Number(Number(12), 2))
  . Who(HoldShut, Number(Number(12), 3))
  . Who(HoldShut, Number(Number(12), 4))
  . Who(HoldShut, Number(Number(12), 5))
  . Who(HoldShut, Number(Number(12), 6))
  tally Counted(Number(12))
  record Asked { who: Number(12), task: HoldShut, outcome: Plain }
  .
  tally Cleared(Number(12))
  Form(Confirm { topic: Task(HoldShut), gist: Hold(Stamp { date: Date(20879), minute: Minute(480) }), trouble: None })
  tally HeldShut(Steady(1803974400))
  record HeldShut { who: Number(12), until: Utc(1803974400) }
  Sound(Accepted)
  HoldSet { until: Stamp { date: Date(20879), minute: Minute(480) } }
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
  record Refused { who: Number(13), why: HeldShut, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: HeldShut, until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 60000 ms
> wait 61
  60 s later:
  HeldShut { until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 82557000 ms
> keys ok 2 02 615024 ok
  . List { page: 0 }
  . Who(Status, Nothing)
  . Who(Status, Tens(0))
  . Who(Status, Number(Number(2), 0))
  . Who(Status, Number(Number(2), 1))
  . Who(Status, Number(Number(2), 2))
  . Who(Status, Number(Number(2), 3))
  . Who(Status, Number(Number(2), 4))
  . Who(Status, Number(Number(2), 5))
  . Who(Status, Number(Number(2), 6))
  tally Counted(Number(2))
  record Status { who: Number(2), outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(2))
  Status { supply: None, now: Some(Stamp { date: Date(20878), minute: Minute(544) }), uncollected: 13 }
  wakes in 60000 ms
> wait 61
  60 s later:
  HeldShut { until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 82496000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  HeldShut { until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 60000 ms
> wait 82000
  wakes in 436000 ms
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
  record Refused { who: Number(13), why: HeldShut, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: HeldShut, until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 60000 ms
> keys ok 1 12 739205 ok ok
  . List { page: 0 }
  . Who(HoldShut, Nothing)
  . Who(HoldShut, Tens(1))
  . Who(HoldShut, Number(Number(12), 0))
  . Who(HoldShut, Number(Number(12), 1))
  . Who(HoldShut, Number(Number(12), 2))
  . Who(HoldShut, Number(Number(12), 3))
  . Who(HoldShut, Number(Number(12), 4))
  . Who(HoldShut, Number(Number(12), 5))
  . Who(HoldShut, Number(Number(12), 6))
  tally Counted(Number(12))
  record Asked { who: Number(12), task: HoldShut, outcome: Duress }
  Alarm(Duress)
  .
  tally Cleared(Number(12))
  Form(Confirm { topic: Task(HoldShut), gist: Hold(Stamp { date: Date(20879), minute: Minute(480) }), trouble: None })
  tally HeldShut(Steady(1803974400))
  record HeldShut { who: Number(12), until: Utc(1803974400) }
  Sound(Accepted)
  HoldSet { until: Stamp { date: Date(20879), minute: Minute(480) } }
  wakes in 60000 ms
> wait 300000
  60 s later:
  Alarm(Quiet)
  HeldShut { until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  436 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 50000000 ms
