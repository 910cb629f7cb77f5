# The memory takes nothing, or says nothing: within a try, an opening, a dialogue, a boot.
> lock in use
  wakes in 86400000 ms
> memory takes nothing
  wakes in 86400000 ms
> keys 12 739205 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  StoreFault
  Service(Store)
  wakes in 86400000 ms
> keys 13 158260 ok
  wakes in 86400000 ms
> bolt drawn
  Alarm(Tamper)
  StoreFault
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  StoreFault
  wakes in 60000 ms
> door open
  StoreFault
  wakes in 60000 ms
> wait 70
  60 s later:
  Alarm(Quiet)
  wakes in 86330000 ms
> memory whole
  wakes in 86330000 ms
> keys 13 158260 ok
  wakes in 86330000 ms
> power cut
  Alarm(Tamper)
  record PoweredUp { unrecorded: 0 }
  record Forced
  Open { late: No }
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
  record Refused { who: Number(13), why: AlreadyOpen, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: AlreadyOpen, until: None }
  wakes in 60000 ms
> lock with a delay
  wakes in 86400000 ms
> keys 13 158261 ok
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record DelayStarted { people: People { first: Number(13), second: None }, outcome: Duress }
  Alarm(Duress)
  Sound(Accepted)
  tally Cleared(Number(13))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> memory takes nothing
  wakes in 60000 ms
> wait 200
  60 s later:
  Alarm(Quiet)
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 40000 ms
> keys 13 158261 ok
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  StoreFault
  Service(Store)
  wakes in 86200000 ms
> memory whole
  wakes in 86200000 ms
> power cut
  Alarm(Duress)
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> keys ok ok 2 01 480317 ok 12 ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Suspend, Nothing)
  . Who(Suspend, Tens(0))
  . Who(Suspend, Number(Number(1), 0))
  . Who(Suspend, Number(Number(1), 1))
  . Who(Suspend, Number(Number(1), 2))
  . Who(Suspend, Number(Number(1), 3))
  . Who(Suspend, Number(Number(1), 4))
  . Who(Suspend, Number(Number(1), 5))
  . Who(Suspend, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Suspend, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Suspend), gist: Holder(Number(12)), trouble: None })
  wakes in 60000 ms
> memory takes nothing
  wakes in 60000 ms
> keys ok
  StoreFault
  Service(Store)
  wakes in 60000 ms
> wait 61
  60 s later:
  Alarm(Quiet)
  wakes in 86339000 ms
> memory whole
  wakes in 86339000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
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
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> wait 190
  60 s later:
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 50000 ms
> memory says nothing
  wakes in 50000 ms
> keys 12 739205 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  StoreFault
  Service(Store)
  wakes in 86210000 ms
> wait 61
  wakes in 86149000 ms
> memory whole
  wakes in 86149000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> keys ok ok 2 01 480317 ok 12
  . List { page: 0 }
  . List { page: 1 }
  . Who(Suspend, Nothing)
  . Who(Suspend, Tens(0))
  . Who(Suspend, Number(Number(1), 0))
  . Who(Suspend, Number(Number(1), 1))
  . Who(Suspend, Number(Number(1), 2))
  . Who(Suspend, Number(Number(1), 3))
  . Who(Suspend, Number(Number(1), 4))
  . Who(Suspend, Number(Number(1), 5))
  . Who(Suspend, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Suspend, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  wakes in 60000 ms
> memory says nothing
  wakes in 60000 ms
> keys ok ok
  . Service(Settings)
  wakes in 60000 ms
> wait 100
  wakes in 86300000 ms
> power cut
  Drive(Block)
  StoreFault
  Service(Store)
  wakes in 86400000 ms
> memory whole
  wakes in 86400000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
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
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 3 }
  wakes in 60000 ms
