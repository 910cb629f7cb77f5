# Corrected alone, set by two, lost, settling; no such date or time.
> keys ok ok ok ok 3 02 615024 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(SetClock, Nothing)
  . Who(SetClock, Tens(0))
  . Who(SetClock, Number(Number(2), 0))
  . Who(SetClock, Number(Number(2), 1))
  . Who(SetClock, Number(Number(2), 2))
  . Who(SetClock, Number(Number(2), 3))
  . Who(SetClock, Number(Number(2), 4))
  . Who(SetClock, Number(Number(2), 5))
  . Who(SetClock, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> keys 31022027 ok 01032027 ok 2500 ok 0904 ok ok
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 31, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 310, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 3102, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 31022, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 310220, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 3102202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 31022027, count: 8 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 0 }, trouble: Some(NoDate) })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10320, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 25, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 250, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 2500, count: 4 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: Some(NoTime) })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 9, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 90, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 904, count: 4 }, trouble: None })
  . Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20878), minute: Minute(544) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891600)))
  SetClock(Utc(1803891840))
  record Changed { by: Some(People { first: Number(2), second: None }), change: ClockCorrected(240) }
  tally Corrected { by: Seconds(240), shift: Shift(240) }
  Sound(Accepted)
  Form(Done { change: ClockCorrected(240), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> keys ok ok ok ok 3 02 615024 ok 01032027 ok 0907 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(SetClock, Nothing)
  . Who(SetClock, Tens(0))
  . Who(SetClock, Number(Number(2), 0))
  . Who(SetClock, Number(Number(2), 1))
  . Who(SetClock, Number(Number(2), 2))
  . Who(SetClock, Number(Number(2), 3))
  . Who(SetClock, Number(Number(2), 4))
  . Who(SetClock, Number(Number(2), 5))
  . Who(SetClock, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10320, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 9, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 90, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 907, count: 4 }, trouble: None })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Nothing })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
> keys ok ok ok ok 3 02 615024 ok 01032027 ok 1200 ok 01 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(SetClock, Nothing)
  . Who(SetClock, Tens(0))
  . Who(SetClock, Number(Number(2), 0))
  . Who(SetClock, Number(Number(2), 1))
  . Who(SetClock, Number(Number(2), 2))
  . Who(SetClock, Number(Number(2), 3))
  . Who(SetClock, Number(Number(2), 4))
  . Who(SetClock, Number(Number(2), 5))
  . Who(SetClock, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10320, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1032027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 120, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1200, count: 4 }, trouble: None })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Nothing })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Tens(0) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 0) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 1) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 2) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 3) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 4) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 5) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 6) })
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20878), minute: Minute(720) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891722)))
  SetClock(Utc(1803902400))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(Some(Utc(1803891962))) }
  tally ClockSet(Shift(10678))
  Sound(Accepted)
  Form(Done { change: ClockSet(Some(Utc(1803891962))), from: None })
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
  record Refused { who: Number(12), why: Settling, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Settling, until: Some(Stamp { date: Date(20878), minute: Minute(1200) }) }
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
> wait 10
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 50000 ms
> wait 28800
  28790 s later:
  tally Settled
  wakes in 57590000 ms
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
> keys ok ok ok ok 3 02 615024 ok 01031999 ok 1200 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(SetClock, Nothing)
  . Who(SetClock, Tens(0))
  . Who(SetClock, Number(Number(2), 0))
  . Who(SetClock, Number(Number(2), 1))
  . Who(SetClock, Number(Number(2), 2))
  . Who(SetClock, Number(Number(2), 3))
  . Who(SetClock, Number(Number(2), 4))
  . Who(SetClock, Number(Number(2), 5))
  . Who(SetClock, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1031, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10319, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 103199, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1031999, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 120, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 1200, count: 4 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: Some(NotInItsLife) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 57529000 ms
> clock lost
  tally ClockDoubt(Some(Steady(1803920593)))
  record ClockInvalid
  Secured { supply: Good, clock: Invalid }
  wakes in 2563007000 ms
> wait 10
  wakes in 2562997000 ms
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
  record Refused { who: Number(12), why: Clock, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Clock, until: None }
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
  tally Brought(Steady(1803920603))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok ok ok 3 02 615024 ok 02032027 ok 0930 ok 01 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(SetClock, Nothing)
  . Who(SetClock, Tens(0))
  . Who(SetClock, Number(Number(2), 0))
  . Who(SetClock, Number(Number(2), 1))
  . Who(SetClock, Number(Number(2), 2))
  . Who(SetClock, Number(Number(2), 3))
  . Who(SetClock, Number(Number(2), 4))
  . Who(SetClock, Number(Number(2), 5))
  . Who(SetClock, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 2, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 20, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 203, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 2032, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 20320, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 203202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 2032027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 9, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 93, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 930, count: 4 }, trouble: None })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Nothing })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Tens(0) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 0) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 1) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 2) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 3) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 4) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 5) })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Number(Number(1), 6) })
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetClock, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20879), minute: Minute(570) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803920603)))
  SetClock(Utc(1803979800))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(None) }
  tally Corrected { by: Seconds(0), shift: Shift(59197) }
  Sound(Accepted)
  Form(Done { change: ClockSet(None), from: None })
  wakes in 60000 ms
> bolt thrown
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
> wait 61
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> clock +5
  tally ClockDoubt(Some(Steady(1803920664)))
  record ClockInvalid
  Secured { supply: Good, clock: Invalid }
  wakes in 2562936000 ms
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
  record Refused { who: Number(12), why: Clock, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Clock, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Invalid }
  wakes in 2562875000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Invalid }
  wakes in 60000 ms
> wait 100
  wakes in 2591900000 ms
