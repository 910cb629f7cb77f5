# Two people: a wait, and one of the two is changed; duress; a pair that is begun anew.
> lock for two people
  wakes in 86400000 ms
> keys 12 739204 ok 13 158260 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record FirstOfTwo { who: Number(12), outcome: Plain }
  .
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record Released { people: People { first: Number(12), second: Some(Number(13)) }, outcome: Plain }
  tally Cleared(Number(13))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803891600))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok 2 01 480317 ok 12 ok ok
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
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Suspended(Number(12)) }
  Sound(Accepted)
  Form(Done { change: Suspended(Number(12)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 28739000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(61) }
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
  record Refused { who: Number(12), why: Suspended, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Suspended, until: None }
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
  record FirstOfTwo { who: Number(13), outcome: Plain }
  .
  tally Cleared(Number(13))
  SecondPerson { first: Number(13) }
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
  record Refused { who: Number(13), why: SamePerson, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: SamePerson, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  record Lapsed
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
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
  record FirstOfTwo { who: Number(13), outcome: Plain }
  .
  tally Cleared(Number(13))
  SecondPerson { first: Number(13) }
  wakes in 60000 ms
> keys ok ok 2 01 480317 ok 13 ok ok
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
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Suspend), gist: Holder(Number(13)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Suspended(Number(13)) }
  Sound(Accepted)
  Form(Done { change: Suspended(Number(13)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  record Lapsed
  Secured { supply: Good, clock: Valid }
  wakes in 86217000 ms
> keys 03 927406 ok
  . Entry(Tens(0))
  . Entry(Number(Number(3), 0))
  . Entry(Number(Number(3), 1))
  . Entry(Number(Number(3), 2))
  . Entry(Number(Number(3), 3))
  . Entry(Number(Number(3), 4))
  . Entry(Number(Number(3), 5))
  . Entry(Number(Number(3), 6))
  tally Counted(Number(3))
  record FirstOfTwo { who: Number(3), outcome: Plain }
  .
  tally Cleared(Number(3))
  SecondPerson { first: Number(3) }
  wakes in 60000 ms
> lock for two people
  wakes in 86400000 ms
> keys 13 158261 ok 03 927406 ok
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record FirstOfTwo { who: Number(13), outcome: Duress }
  Alarm(Duress)
  .
  tally Cleared(Number(13))
  SecondPerson { first: Number(13) }
  . Entry(Tens(0))
  . Entry(Number(Number(3), 0))
  . Entry(Number(Number(3), 1))
  . Entry(Number(Number(3), 2))
  . Entry(Number(Number(3), 3))
  . Entry(Number(Number(3), 4))
  . Entry(Number(Number(3), 5))
  . Entry(Number(Number(3), 6))
  tally Counted(Number(3))
  record Released { people: People { first: Number(13), second: Some(Number(3)) }, outcome: Duress }
  tally Cleared(Number(3))
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
> keys ok ok ok ok ok 1 01 480317 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 1000 ms
> keys ok 2 3 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 3 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 180) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 180), from: None })
  wakes in 1000 ms
> wait 61
  60 s later:
  Alarm(Quiet)
  Secured { supply: Good, clock: Valid }
  wakes in 86332000 ms
> keys 12 739204 ok 13 158260 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record FirstOfTwo { who: Number(12), outcome: Plain }
  .
  tally Cleared(Number(12))
  SecondPerson { first: Number(12) }
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record DelayStarted { people: People { first: Number(12), second: Some(Number(13)) }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(13))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> wait 100
  60 s later:
  Waiting { minutes: 2 }
  wakes in 20000 ms
> keys ok ok ok 2 01 480317 ok 12 ok 3 1 2 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(ChangeRole, Nothing)
  . Who(ChangeRole, Tens(0))
  . Who(ChangeRole, Number(Number(1), 0))
  . Who(ChangeRole, Number(Number(1), 1))
  . Who(ChangeRole, Number(Number(1), 2))
  . Who(ChangeRole, Number(Number(1), 3))
  . Who(ChangeRole, Number(Number(1), 4))
  . Who(ChangeRole, Number(Number(1), 5))
  . Who(ChangeRole, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: ChangeRole, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Second { topic: Task(ChangeRole), whom: Privileged, typed: Nothing })
  . Form(Second { topic: Task(ChangeRole), whom: Privileged, typed: Tens(2) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 1 }
  wakes in 19000 ms
> keys 12 739204 ok 13 158260 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record Refused { who: Number(12), why: Waiting, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Waiting, until: None }
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record Refused { who: Number(13), why: Waiting, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(13))
  Refused { why: Waiting, until: None }
  wakes in 19000 ms
> wait 100
  19 s later:
  Claimable { minutes: 3 }
  79 s later:
  Claimable { minutes: 2 }
  wakes in 39000 ms
> keys ok ok 2 01 480317 ok 12 ok ok
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
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Suspended(Number(12)) }
  Sound(Accepted)
  record Cancelled { why: Changed }
  Form(Done { change: Suspended(Number(12)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86010000 ms
> keys 03 927406 ok 13 158260 ok
  . Entry(Tens(0))
  . Entry(Number(Number(3), 0))
  . Entry(Number(Number(3), 1))
  . Entry(Number(Number(3), 2))
  . Entry(Number(Number(3), 3))
  . Entry(Number(Number(3), 4))
  . Entry(Number(Number(3), 5))
  . Entry(Number(Number(3), 6))
  tally Counted(Number(3))
  record FirstOfTwo { who: Number(3), outcome: Plain }
  .
  tally Cleared(Number(3))
  SecondPerson { first: Number(3) }
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record DelayStarted { people: People { first: Number(3), second: Some(Number(13)) }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(13))
  Waiting { minutes: 3 }
  wakes in 60000 ms
> wait 200
  60 s later:
  Waiting { minutes: 2 }
  120 s later:
  Waiting { minutes: 1 }
  180 s later:
  Claimable { minutes: 3 }
  wakes in 40000 ms
> keys 03 927406 ok
  . Entry(Tens(0))
  . Entry(Number(Number(3), 0))
  . Entry(Number(Number(3), 1))
  . Entry(Number(Number(3), 2))
  . Entry(Number(Number(3), 3))
  . Entry(Number(Number(3), 4))
  . Entry(Number(Number(3), 5))
  . Entry(Number(Number(3), 6))
  tally Counted(Number(3))
  record FirstOfTwo { who: Number(3), outcome: Plain }
  .
  tally Cleared(Number(3))
  SecondPerson { first: Number(3) }
  wakes in 60000 ms
> wait 61
  60 s later:
  record Lapsed
  Claimable { minutes: 2 }
  wakes in 39000 ms
> keys 13 158260 ok 03 927406 ok
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record FirstOfTwo { who: Number(13), outcome: Plain }
  .
  tally Cleared(Number(13))
  SecondPerson { first: Number(13) }
  . Entry(Tens(0))
  . Entry(Number(Number(3), 0))
  . Entry(Number(Number(3), 1))
  . Entry(Number(Number(3), 2))
  . Entry(Number(Number(3), 3))
  . Entry(Number(Number(3), 4))
  . Entry(Number(Number(3), 5))
  . Entry(Number(Number(3), 6))
  tally Counted(Number(3))
  record Released { people: People { first: Number(13), second: Some(Number(3)) }, outcome: Plain }
  tally Cleared(Number(3))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803892251))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok ok 1 01 480317 ok 13 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(Remove, Nothing)
  . Who(Remove, Tens(0))
  . Who(Remove, Number(Number(1), 0))
  . Who(Remove, Number(Number(1), 1))
  . Who(Remove, Number(Number(1), 2))
  . Who(Remove, Number(Number(1), 3))
  . Who(Remove, Number(Number(1), 4))
  . Who(Remove, Number(Number(1), 5))
  . Who(Remove, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Remove, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Nothing })
  wakes in 60000 ms
> keys ok ok 3 01 480317 ok 12 ok ok
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Tens(3) })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Number(Number(30), 0) })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Number(Number(30), 1) })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Number(Number(30), 2) })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Number(Number(30), 3) })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Number(Number(30), 4) })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Number(Number(30), 5) })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Number(Number(30), 6) })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Number(Number(30), 7) })
  tally Counted(Number(30))
  record WrongCode { who: Number(30) }
  Sound(Refused)
  WrongCode { left: 3 }
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . TooShort
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Open { late: No }
  wakes in 28088000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(61) }
  Secured { supply: Good, clock: Valid }
  wakes in 85688000 ms
