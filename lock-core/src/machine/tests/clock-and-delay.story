# The clock set while a delay runs, a row waits, a file waits, a hold-shut runs; corrections.
> lock with a delay
  wakes in 86400000 ms
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
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> keys ok ok ok ok 3 02 615024 ok 01032027 ok 2200 ok 01 480317 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 22, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 220, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 2200, count: 4 }, trouble: None })
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
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20878), minute: Minute(1320) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891600)))
  SetClock(Utc(1803938400))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(Some(Utc(1803891600))) }
  tally ClockSet(Shift(46800))
  Sound(Accepted)
  record Cancelled { why: Clock }
  Form(Done { change: ClockSet(Some(Utc(1803891600))), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 28739000 ms
> keys ok ok ok ok 3 02 615024 ok 01032027 ok 0900 ok 01 480317 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 900, count: 4 }, trouble: None })
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
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20878), minute: Minute(540) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891661)))
  SetClock(Utc(1803891600))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(Some(Utc(1803938461))) }
  tally ClockSet(Shift(-61))
  Sound(Accepted)
  Form(Done { change: ClockSet(Some(Utc(1803938461))), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 28739000 ms
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
  Refused { why: Settling, until: Some(Stamp { date: Date(20878), minute: Minute(1020) }) }
  wakes in 60000 ms
> keys ok ok ok ok 3 02 615024 ok 01032027 ok 0904 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 904, count: 4 }, trouble: None })
  . Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20878), minute: Minute(544) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891722)))
  SetClock(Utc(1803891840))
  record Changed { by: Some(People { first: Number(2), second: None }), change: ClockCorrected(179) }
  tally Corrected { by: Seconds(179), shift: Shift(118) }
  Sound(Accepted)
  Form(Done { change: ClockCorrected(179), from: None })
  wakes in 60000 ms
> wait 190
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 28549000 ms
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
  Refused { why: Settling, until: Some(Stamp { date: Date(20878), minute: Minute(1023) }) }
  wakes in 60000 ms
> wait 7
  wakes in 53000 ms
> keys ok ok ok ok 3 02 615024 ok 01032027 ok 0905 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 905, count: 4 }, trouble: None })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Nothing })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 28481000 ms
> keys ok ok ok ok 3 02 615024 ok 01032027 ok 0912 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 91, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 912, count: 4 }, trouble: None })
  . Form(Second { topic: Task(SetClock), whom: Warden, typed: Nothing })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 28420000 ms
> wait 2678400
  28420 s later:
  tally Settled
  2591681 s later:
  tally CorrectionsOver
  wakes in 86081000 ms
> keys ok ok ok ok 3 02 615024 ok 01042027 ok 0912 ok 01 480317 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 104, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1042, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10420, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 104202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1042027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 9, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 91, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 912, count: 4 }, trouble: None })
  . Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20909), minute: Minute(552) }), trouble: None })
  tally ClockDoubt(Some(Steady(1806570441)))
  SetClock(Utc(1806570720))
  record Changed { by: Some(People { first: Number(2), second: None }), change: ClockCorrected(161) }
  tally Corrected { by: Seconds(161), shift: Shift(279) }
  Sound(Accepted)
  Form(Done { change: ClockCorrected(161), from: None })
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> lock in use
  wakes in 86400000 ms
> keys ok 1 02 615024 ok ok
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
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> keys ok ok ok ok 3 02 615024 ok 01042027 ok 0912 ok 01 480317 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 104, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1042, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10420, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 104202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1042027, count: 8 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 9, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 91, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Time, shown: Digits { value: 912, count: 4 }, trouble: None })
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
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20909), minute: Minute(552) }), trouble: None })
  tally ClockDoubt(Some(Steady(1803891661)))
  SetClock(Utc(1806570720))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(Some(Utc(1803891661))) }
  tally ClockSet(Shift(2679059))
  Sound(Accepted)
  Form(Done { change: ClockSet(Some(Utc(1803891661))), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 28739000 ms
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
> wait 100000
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  28800 s later:
  tally Settled
  wakes in 72800000 ms
> clock -100000
  tally ClockDoubt(Some(Steady(1803991782)))
  record ClockInvalid
  Secured { supply: Good, clock: Invalid }
  wakes in 2492000000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Invalid }
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
  record Refused { who: Number(12), why: Clock, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Clock, until: None }
  wakes in 60000 ms
> wait 400
  60 s later:
  Secured { supply: Good, clock: Invalid }
  wakes in 2591600000 ms
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
> clock +90000
  wakes in 60000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Invalid }
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
  record Refused { who: Number(12), why: Clock, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Clock, until: None }
  wakes in 60000 ms
> wait 30000
  60 s later:
  Secured { supply: Good, clock: Invalid }
  wakes in 2562000000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Invalid }
  wakes in 60000 ms
> clock +40000000
  wakes in 60000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Invalid }
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
  record Refused { who: Number(12), why: Clock, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Clock, until: None }
  wakes in 60000 ms
> wait 100000
  60 s later:
  Secured { supply: Good, clock: Invalid }
  wakes in 2492000000 ms
> keys ok ok ok ok 3 02 615024 ok 01062027 ok 1200 ok 01 480317 ok ok
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
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 106, count: 4 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1062, count: 5 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 10620, count: 6 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 106202, count: 7 }, trouble: None })
  . Form(Ask { topic: Task(SetClock), field: Date, shown: Digits { value: 1062027, count: 8 }, trouble: None })
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
  Form(Confirm { topic: Task(SetClock), gist: Clock(Stamp { date: Date(20970), minute: Minute(720) }), trouble: None })
  tally ClockDoubt(Some(Steady(1804091782)))
  SetClock(Utc(1811851200))
  record Changed { by: Some(People { first: Number(2), second: Some(Number(1)) }), change: ClockSet(None) }
  tally ClockSet(Shift(7759418))
  Sound(Accepted)
  Form(Done { change: ClockSet(None), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 28739000 ms
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
  Refused { why: Settling, until: Some(Stamp { date: Date(20970), minute: Minute(1200) }) }
  wakes in 60000 ms
