# What a dialogue about people refuses: free, taken, oneself, a courier, already, no choice.
> lock in use
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
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803891600))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok 2 01 480317 ok 50 ok 01 ok 12 ok ok
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
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 5, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 50, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Free) })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 1, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Yourself) })
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
  wakes in 86339000 ms
> keys ok ok 2 01 480317 ok 12 ok back
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
  Sound(Refused)
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Already) })
  . Open { late: No }
  wakes in 60000 ms
> keys ok ok 3 01 480317 ok 13 ok back
  . List { page: 0 }
  . List { page: 1 }
  . Who(Restore, Nothing)
  . Who(Restore, Tens(0))
  . Who(Restore, Number(Number(1), 0))
  . Who(Restore, Number(Number(1), 1))
  . Who(Restore, Number(Number(1), 2))
  . Who(Restore, Number(Number(1), 3))
  . Who(Restore, Number(Number(1), 4))
  . Who(Restore, Number(Number(1), 5))
  . Who(Restore, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Restore, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Already) })
  . Open { late: No }
  wakes in 60000 ms
> keys ok ok 1 01 480317 ok 13 ok 00 ok 32 ok 6 9 0 4 9 1 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(1), 0))
  . Who(Enrol, Number(Number(1), 1))
  . Who(Enrol, Number(Number(1), 2))
  . Who(Enrol, Number(Number(1), 3))
  . Who(Enrol, Number(Number(1), 4))
  . Who(Enrol, Number(Number(1), 5))
  . Who(Enrol, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Taken) })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(NoChoice) })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 32, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: Some(NoChoice) })
  Sound(Refused)
  Sound(Refused)
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: Some(NoChoice) })
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(32), role: Courier, opens: No, follows: Timetable(A) }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(32), Courier) }
  Sound(Accepted)
  tally Cleared(Number(32))
  Form(Done { change: Enrolled(Number(32), Courier), from: None })
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Open { late: No }
  wakes in 86278000 ms
> keys ok ok ok 2 01 480317 ok 32 ok back
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
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 32, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Courier) })
  . Open { late: No }
  wakes in 60000 ms
> keys ok ok ok 2 01 480317 ok 12 ok 4 3 3 9 ok ok
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
  Sound(Refused)
  Form(Ask { topic: Task(ChangeRole), field: Role, shown: Digits { value: 0, count: 0 }, trouble: Some(Courier) })
  . Form(Ask { topic: Task(ChangeRole), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Confirm { topic: Task(ChangeRole), gist: Row { number: Number(12), role: Keyholder, opens: No, follows: Timetable(C) }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: RoleChanged(Number(12), Keyholder) }
  Sound(Accepted)
  Form(Done { change: RoleChanged(Number(12), Keyholder), from: None })
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Open { late: No }
  wakes in 86217000 ms
> keys ok ok ok 3 01 480317 ok 02 ok 99 ok back
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(ChooseTimetable, Nothing)
  . Who(ChooseTimetable, Tens(0))
  . Who(ChooseTimetable, Number(Number(1), 0))
  . Who(ChooseTimetable, Number(Number(1), 1))
  . Who(ChooseTimetable, Number(Number(1), 2))
  . Who(ChooseTimetable, Number(Number(1), 3))
  . Who(ChooseTimetable, Number(Number(1), 4))
  . Who(ChooseTimetable, Number(Number(1), 5))
  . Who(ChooseTimetable, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: ChooseTimetable, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 2, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(NeverOpens) })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 9, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 99, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Free) })
  . Open { late: No }
  wakes in 60000 ms
> keys ok ok ok 1 03 927406 ok 12 ok back
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(Remove, Nothing)
  . Who(Remove, Tens(0))
  . Who(Remove, Number(Number(3), 0))
  . Who(Remove, Number(Number(3), 1))
  . Who(Remove, Number(Number(3), 2))
  . Who(Remove, Number(Number(3), 3))
  . Who(Remove, Number(Number(3), 4))
  . Who(Remove, Number(Number(3), 5))
  . Who(Remove, Number(Number(3), 6))
  tally Counted(Number(3))
  record Asked { who: Number(3), task: Remove, outcome: Plain }
  .
  tally Cleared(Number(3))
  Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Remove), gist: Holder(Number(12)), trouble: None })
  . Open { late: No }
  wakes in 60000 ms
> keys ok ok 2 03 927406 ok 13 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Suspend, Nothing)
  . Who(Suspend, Tens(0))
  . Who(Suspend, Number(Number(3), 0))
  . Who(Suspend, Number(Number(3), 1))
  . Who(Suspend, Number(Number(3), 2))
  . Who(Suspend, Number(Number(3), 3))
  . Who(Suspend, Number(Number(3), 4))
  . Who(Suspend, Number(Number(3), 5))
  . Who(Suspend, Number(Number(3), 6))
  tally Counted(Number(3))
  record Asked { who: Number(3), task: Suspend, outcome: Plain }
  .
  tally Cleared(Number(3))
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Suspend), gist: Holder(Number(13)), trouble: None })
  edit Changed { by: Some(People { first: Number(3), second: None }), change: Suspended(Number(13)) }
  Sound(Accepted)
  Form(Done { change: Suspended(Number(13)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86156000 ms
> keys ok ok 3 03 927406 ok 13 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Restore, Nothing)
  . Who(Restore, Tens(0))
  . Who(Restore, Number(Number(3), 0))
  . Who(Restore, Number(Number(3), 1))
  . Who(Restore, Number(Number(3), 2))
  . Who(Restore, Number(Number(3), 3))
  . Who(Restore, Number(Number(3), 4))
  . Who(Restore, Number(Number(3), 5))
  . Who(Restore, Number(Number(3), 6))
  tally Counted(Number(3))
  record Asked { who: Number(3), task: Restore, outcome: Plain }
  .
  tally Cleared(Number(3))
  Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Restore), gist: Holder(Number(13)), trouble: None })
  edit Changed { by: Some(People { first: Number(3), second: None }), change: Restored(Number(13)) }
  Sound(Accepted)
  Form(Done { change: Restored(Number(13)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86095000 ms
> keys ok ok 1 01 480317 ok 40 ok 1 2 9 842613 ok 842613 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(1), 0))
  . Who(Enrol, Number(Number(1), 1))
  . Who(Enrol, Number(Number(1), 2))
  . Who(Enrol, Number(Number(1), 3))
  . Who(Enrol, Number(Number(1), 4))
  . Who(Enrol, Number(Number(1), 5))
  . Who(Enrol, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 4, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 40, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Opens, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(7), trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(0), trouble: Some(CodeLength(6)) })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(0), trouble: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86034000 ms
> keys ok ok 1 01 480317 ok 41 ok 1 3 1 9 593018 ok 593018 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(1), 0))
  . Who(Enrol, Number(Number(1), 1))
  . Who(Enrol, Number(Number(1), 2))
  . Who(Enrol, Number(Number(1), 3))
  . Who(Enrol, Number(Number(1), 4))
  . Who(Enrol, Number(Number(1), 5))
  . Who(Enrol, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 4, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 41, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Opens, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: Opens, shown: Digits { value: 0, count: 0 }, trouble: Some(NoChoice) })
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(6), trouble: None })
  . Form(Second { topic: Task(Enrol), whom: Privileged, typed: Nothing })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 85973000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(427) }
  Secured { supply: Good, clock: Valid }
  wakes in 85973000 ms
> keys ok ok ok 2 01 480317 ok 40 ok 3 1 9 ok 04 306518 ok ok
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
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 4, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 40, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Free) })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 31, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Free) })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 4, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 85912000 ms
> keys ok ok ok 1 01 480317 ok 40 ok 02 615024 ok ok
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
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 4, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 40, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Free) })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 2, count: 2 }, trouble: None })
  . Form(Second { topic: Task(Remove), whom: Privileged, typed: Nothing })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 85851000 ms
> keys ok ok ok 1 01 480317 ok 03 ok ok
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
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 3, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Remove), gist: Holder(Number(3)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Removed(Number(3)) }
  Sound(Accepted)
  Form(Done { change: Removed(Number(3)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 85790000 ms
> keys ok ok 1 02 615024 ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(2), 0))
  . Who(Enrol, Number(Number(2), 1))
  . Who(Enrol, Number(Number(2), 2))
  . Who(Enrol, Number(Number(2), 3))
  . Who(Enrol, Number(Number(2), 4))
  . Who(Enrol, Number(Number(2), 5))
  . Who(Enrol, Number(Number(2), 6))
  tally Counted(Number(2))
  record Refused { who: Number(2), why: Right, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(2))
  Refused { why: Right, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 85729000 ms
