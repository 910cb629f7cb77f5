# Timetable A, and always; wrong, duress, unknown.
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
> wait 3
  wakes in 3000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803891603))
  Open { late: No }
  wakes in 57000 ms
> door open
  wakes in 57000 ms
> wait 600
  wakes in 28197000 ms
> door closed
  wakes in 28197000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(600) }
  Secured { supply: Good, clock: Valid }
  wakes in 85797000 ms
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
> wait 10
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
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
  record Released { people: People { first: Number(13), second: None }, outcome: Plain }
  tally Cleared(Number(13))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> wait 6
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 2000 ms
> wait 1
  wakes in 1000 ms
> bolt drawn
  record Opened
  Open { late: No }
  wakes in 53000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 53000 ms
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
> wait 4
  wakes in 2000 ms
> bolt drawn
  record Opened
  Open { late: No }
  wakes in 56000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 56000 ms
> wait 300
  56 s later:
  Alarm(Quiet)
  wakes in 85476000 ms
> keys 02 615024 ok
  . Entry(Tens(0))
  . Entry(Number(Number(2), 0))
  . Entry(Number(Number(2), 1))
  . Entry(Number(Number(2), 2))
  . Entry(Number(Number(2), 3))
  . Entry(Number(Number(2), 4))
  . Entry(Number(Number(2), 5))
  . Entry(Number(Number(2), 6))
  tally Counted(Number(2))
  record Refused { who: Number(2), why: Right, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(2))
  Refused { why: Right, until: None }
  wakes in 60000 ms
> keys 55 123456 ok
  . Entry(Tens(5))
  . Entry(Number(Number(55), 0))
  . Entry(Number(Number(55), 1))
  . Entry(Number(Number(55), 2))
  . Entry(Number(Number(55), 3))
  . Entry(Number(Number(55), 4))
  . Entry(Number(Number(55), 5))
  . Entry(Number(Number(55), 6))
  tally Counted(Number(55))
  record WrongCode { who: Number(55) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> keys 12 1 back back
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> keys 12 1 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . TooShort
  wakes in 60000 ms
> keys 12 123456789012 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  . Entry(Number(Number(12), 7))
  . Entry(Number(Number(12), 8))
  . TooLong
  . Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> wait 30
  wakes in 30000 ms
> keys 12 7
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  wakes in 20000 ms
> wait 25
  20 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 5000 ms
> wait 36000
  wakes in 49421000 ms
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
  record Refused { who: Number(12), why: Closed, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Closed, until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
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
> wait 100000
  50345 s later:
  tally Faded(Number(55))
  wakes in 35821000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(100000) }
  Secured { supply: Good, clock: Valid }
  wakes in 35821000 ms
