# Forced, thrown, left open, found open, found thrown.
> bolt drawn
  Alarm(Tamper)
  record Forced
  Open { late: No }
  wakes in 60000 ms
> wait 100
  60 s later:
  Alarm(Quiet)
  wakes in 86300000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(100) }
  Secured { supply: Good, clock: Valid }
  wakes in 86300000 ms
> door open
  Alarm(Tamper)
  record Forced
  Open { late: No }
  wakes in 60000 ms
> door closed
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
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
  tally Brought(Steady(1803891700))
  Open { late: No }
  wakes in 60000 ms
> wait 30000
  60 s later:
  Alarm(Quiet)
  28700 s later:
  Sound(Warning)
  record LeftOpen
  Open { late: Yes }
  wakes in 56300000 ms
> power cut
  record PoweredUp { unrecorded: 0 }
  Sound(Warning)
  record LeftOpen
  Open { late: Yes }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(30060) }
  Secured { supply: Good, clock: Valid }
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
  tally Brought(Steady(1803921760))
  Open { late: No }
  wakes in 60000 ms
> power cut
  record PoweredUp { unrecorded: 0 }
  Open { late: No }
  wakes in 60000 ms
> wait 70
  wakes in 86330000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(130) }
  Secured { supply: Good, clock: Valid }
  wakes in 86330000 ms
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
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  record NotDrawn
  Secured { supply: Good, clock: Valid }
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
> wait 7
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 1000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803921957))
  Open { late: No }
  wakes in 53000 ms
> power cut
  record PoweredUp { unrecorded: 0 }
  Open { late: No }
  wakes in 60000 ms
> wait 100
  wakes in 86300000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(160) }
  Secured { supply: Good, clock: Valid }
  wakes in 86300000 ms
> door open
  Alarm(Tamper)
  record Forced
  Open { late: No }
  wakes in 60000 ms
> power cut
  Alarm(Tamper)
  record PoweredUp { unrecorded: 0 }
  Open { late: No }
  wakes in 60000 ms
> door closed
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
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
> wait 8
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 52000 ms
> wait 3
  wakes in 49000 ms
> bolt drawn
  record Forced
  Open { late: No }
  wakes in 49000 ms
> switch on
  wakes in 49000 ms
> switch off
  wakes in 49000 ms
