# Low, spent, good again; a stuck drive.
> supply 4900
  wakes in 86400000 ms
> supply 4700
  record Supply { level: Low, measured: Millivolts(4700) }
  Secured { supply: Low, clock: Valid }
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
  Sound(Warning)
  Released { supply: Low }
  wakes in 6000 ms
> wait 10
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Low, clock: Valid }
  wakes in 50000 ms
> supply 4950
  wakes in 50000 ms
> supply 5100
  record Supply { level: Good, measured: Millivolts(5100) }
  Secured { supply: Good, clock: Valid }
  wakes in 50000 ms
> supply 4100
  record Supply { level: Spent, measured: Millivolts(4100) }
  Secured { supply: Spent, clock: Valid }
  wakes in 50000 ms
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
  record Refused { who: Number(13), why: Supply, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: Supply, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Spent, clock: Valid }
  wakes in 86329000 ms
> keys ok 2 01 480317 ok
  . List { page: 0 }
  . Who(Status, Nothing)
  . Who(Status, Tens(0))
  . Who(Status, Number(Number(1), 0))
  . Who(Status, Number(Number(1), 1))
  . Who(Status, Number(Number(1), 2))
  . Who(Status, Number(Number(1), 3))
  . Who(Status, Number(Number(1), 4))
  . Who(Status, Number(Number(1), 5))
  . Who(Status, Number(Number(1), 6))
  tally Counted(Number(1))
  record Status { who: Number(1), outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(1))
  Status { supply: Some(Charge(0)), now: Some(Stamp { date: Date(20878), minute: Minute(541) }), uncollected: 7 }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Spent, clock: Valid }
  wakes in 86268000 ms
> supply 4500
  record Supply { level: Low, measured: Millivolts(4500) }
  Secured { supply: Low, clock: Valid }
  wakes in 86268000 ms
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
  Sound(Warning)
  Released { supply: Low }
  wakes in 6000 ms
> supply 6000
  record Supply { level: Good, measured: Millivolts(6000) }
  Released { supply: Good }
  wakes in 6000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> keys ok 2 02 615025 ok
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
  record Status { who: Number(2), outcome: Duress }
  Alarm(Duress)
  Sound(Accepted)
  tally Cleared(Number(2))
  Status { supply: None, now: Some(Stamp { date: Date(20878), minute: Minute(543) }), uncollected: 13 }
  wakes in 60000 ms
> wait 200
  60 s later:
  Alarm(Quiet)
  Secured { supply: Good, clock: Valid }
  wakes in 86200000 ms
> drive stuck
  wakes in 86200000 ms
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
  record Fault { fault: Drive }
  Service(Drive)
  wakes in 6000 ms
> keys 13 158260 ok
  wakes in 6000 ms
> bolt drawn
  record Opened
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  record Fault { fault: Drive }
  wakes in 60000 ms
> wait 100
  wakes in 86100000 ms
