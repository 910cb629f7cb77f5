# Enrol, suspend, restore, remove, role, timetable, numbers; by whom, and what is refused.
> keys ok ok 1 12 739204 ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(1))
  . Who(Enrol, Number(Number(12), 0))
  . Who(Enrol, Number(Number(12), 1))
  . Who(Enrol, Number(Number(12), 2))
  . Who(Enrol, Number(Number(12), 3))
  . Who(Enrol, Number(Number(12), 4))
  . Who(Enrol, Number(Number(12), 5))
  . Who(Enrol, Number(Number(12), 6))
  tally Counted(Number(12))
  record Refused { who: Number(12), why: Right, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Right, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> keys ok ok 1 03 927406 ok 12 ok 20 ok 1 3 1
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(3), 0))
  . Who(Enrol, Number(Number(3), 1))
  . Who(Enrol, Number(Number(3), 2))
  . Who(Enrol, Number(Number(3), 3))
  . Who(Enrol, Number(Number(3), 4))
  . Who(Enrol, Number(Number(3), 5))
  . Who(Enrol, Number(Number(3), 6))
  tally Counted(Number(3))
  record Asked { who: Number(3), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(3))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Taken) })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: Some(NotYours) })
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(0), trouble: None })
  wakes in 60000 ms
> keys 842613 ok 842614 ok 842613 ok 842613 ok ok
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
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(0), trouble: Some(Differ) })
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
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(20), role: Keyholder, opens: No, follows: Timetable(A) }, trouble: None })
  edit Changed { by: Some(People { first: Number(3), second: None }), change: Enrolled(Number(20), Keyholder) }
  Sound(Accepted)
  tally Cleared(Number(20))
  Form(Done { change: Enrolled(Number(20), Keyholder), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> keys 20 842613 ok
  . Entry(Tens(2))
  . Entry(Number(Number(20), 0))
  . Entry(Number(Number(20), 1))
  . Entry(Number(Number(20), 2))
  . Entry(Number(Number(20), 3))
  . Entry(Number(Number(20), 4))
  . Entry(Number(Number(20), 5))
  . Entry(Number(Number(20), 6))
  tally Counted(Number(20))
  record Refused { who: Number(20), why: Closed, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(20))
  Refused { why: Closed, until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 60000 ms
> wait 10
  wakes in 50000 ms
> keys ok ok 1 01 480317 ok 21 ok 3 2 777777 ok 9 593018 ok 593018 ok ok
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
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 21, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: Some(NoWindow) })
  Sound(Refused)
  Sound(Refused)
  Sound(Refused)
  Sound(Refused)
  Sound(Refused)
  Sound(Refused)
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
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(21), role: Keyholder, opens: No, follows: Always }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(21), Keyholder) }
  Sound(Accepted)
  tally Cleared(Number(21))
  Form(Done { change: Enrolled(Number(21), Keyholder), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86268000 ms
> keys ok ok 1 01 480317 ok 22 ok 3 9 593018 ok 593018 ok ok
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
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 22, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
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
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(22), role: Keyholder, opens: No, follows: Always }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(22), Keyholder) }
  Sound(Accepted)
  tally Cleared(Number(22))
  Form(Done { change: Enrolled(Number(22), Keyholder), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> keys 22 593018 ok
  . Entry(Tens(2))
  . Entry(Number(Number(22), 0))
  . Entry(Number(Number(22), 1))
  . Entry(Number(Number(22), 2))
  . Entry(Number(Number(22), 3))
  . Entry(Number(Number(22), 4))
  . Entry(Number(Number(22), 5))
  . Entry(Number(Number(22), 6))
  tally Counted(Number(22))
  record Refused { who: Number(22), why: Closed, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(22))
  Refused { why: Closed, until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86207000 ms
> keys ok ok 2 03 927406 ok 01 ok 12 ok ok
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
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 1, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(NotYours) })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Suspend), gist: Holder(Number(12)), trouble: None })
  edit Changed { by: Some(People { first: Number(3), second: None }), change: Suspended(Number(12)) }
  Sound(Accepted)
  Form(Done { change: Suspended(Number(12)), from: None })
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
  record Refused { who: Number(12), why: Suspended, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Suspended, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86146000 ms
> keys ok ok 3 03 927406 ok 13 ok 12 ok ok
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
  Sound(Refused)
  Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Already) })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Restore), gist: Holder(Number(12)), trouble: None })
  edit Changed { by: Some(People { first: Number(3), second: None }), change: Restored(Number(12)) }
  Sound(Accepted)
  Form(Done { change: Restored(Number(12)), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
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
  record Refused { who: Number(12), why: Closed, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(12))
  Refused { why: Closed, until: Some(Stamp { date: Date(20879), minute: Minute(480) }) }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86085000 ms
> keys ok ok ok 1 03 927406 ok 20 ok ok
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
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Remove), gist: Holder(Number(20)), trouble: None })
  edit Changed { by: Some(People { first: Number(3), second: None }), change: Removed(Number(20)) }
  Sound(Accepted)
  Form(Done { change: Removed(Number(20)), from: None })
  wakes in 60000 ms
> keys 20 842613 ok
  . Entry(Tens(2))
  . Entry(Number(Number(20), 0))
  . Entry(Number(Number(20), 1))
  . Entry(Number(Number(20), 2))
  . Entry(Number(Number(20), 3))
  . Entry(Number(Number(20), 4))
  . Entry(Number(Number(20), 5))
  . Entry(Number(Number(20), 6))
  tally Counted(Number(20))
  record WrongCode { who: Number(20) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86024000 ms
> keys ok ok ok 2 01 480317 ok 01 ok 12 ok 2 1 1 ok
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
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 1, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 0, count: 0 }, trouble: Some(Yourself) })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Opens, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(ChangeRole), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Confirm { topic: Task(ChangeRole), gist: Row { number: Number(12), role: Deputy, opens: Yes, follows: Timetable(A) }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: RoleChanged(Number(12), Deputy) }
  Sound(Accepted)
  Form(Done { change: RoleChanged(Number(12), Deputy), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 85963000 ms
> keys ok ok ok 3 01 480317 ok 02 ok 12 ok 2 1 9 ok
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
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChooseTimetable), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: Some(NoWindow) })
  . Form(Confirm { topic: Task(ChooseTimetable), gist: Follows(Number(12), Timetable(A)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: TimetableChosen(Number(12), Timetable(A)) }
  Sound(Accepted)
  Form(Done { change: TimetableChosen(Number(12), Timetable(A)), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 85902000 ms
> keys ok ok ok ok 1 01 480317 ok ok ok back
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(Numbers, Nothing)
  . Who(Numbers, Tens(0))
  . Who(Numbers, Number(Number(1), 0))
  . Who(Numbers, Number(Number(1), 1))
  . Who(Numbers, Number(Number(1), 2))
  . Who(Numbers, Number(Number(1), 3))
  . Who(Numbers, Number(Number(1), 4))
  . Who(Numbers, Number(Number(1), 5))
  . Who(Numbers, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Numbers, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Numbers { rows: [Some(Row { number: Number(1), role: Warden, suspended: false }), Some(Row { number: Number(2), role: Steward, suspended: false }), Some(Row { number: Number(3), role: Deputy, suspended: false })] })
  . Form(Numbers { rows: [Some(Row { number: Number(4), role: Warden, suspended: false }), Some(Row { number: Number(12), role: Deputy, suspended: false }), Some(Row { number: Number(13), role: Keyholder, suspended: false })] })
  . Form(Numbers { rows: [Some(Row { number: Number(21), role: Keyholder, suspended: false }), Some(Row { number: Number(22), role: Keyholder, suspended: false }), None] })
  . Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> keys ok ok 1 01 480317 ok 30 ok 1 1 9 264917 ok 264917 ok 04 306518 ok ok
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
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 30, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Opens, shown: Digits { value: 0, count: 0 }, trouble: None })
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
  . Form(Second { topic: Task(Enrol), whom: Privileged, typed: Tens(0) })
  . Form(Second { topic: Task(Enrol), whom: Privileged, typed: Number(Number(4), 0) })
  . Form(Second { topic: Task(Enrol), whom: Privileged, typed: Number(Number(4), 1) })
  . Form(Second { topic: Task(Enrol), whom: Privileged, typed: Number(Number(4), 2) })
  . Form(Second { topic: Task(Enrol), whom: Privileged, typed: Number(Number(4), 3) })
  . Form(Second { topic: Task(Enrol), whom: Privileged, typed: Number(Number(4), 4) })
  . Form(Second { topic: Task(Enrol), whom: Privileged, typed: Number(Number(4), 5) })
  . Form(Second { topic: Task(Enrol), whom: Privileged, typed: Number(Number(4), 6) })
  tally Counted(Number(4))
  record Asked { who: Number(4), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(4))
  Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(30), role: Warden, opens: Yes, follows: Always }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: Some(Number(4)) }), change: Enrolled(Number(30), Warden) }
  Sound(Accepted)
  tally Cleared(Number(30))
  Form(Done { change: Enrolled(Number(30), Warden), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 85841000 ms
> keys ok ok 2 04 306518 ok 30 ok 01 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Suspend, Nothing)
  . Who(Suspend, Tens(0))
  . Who(Suspend, Number(Number(4), 0))
  . Who(Suspend, Number(Number(4), 1))
  . Who(Suspend, Number(Number(4), 2))
  . Who(Suspend, Number(Number(4), 3))
  . Who(Suspend, Number(Number(4), 4))
  . Who(Suspend, Number(Number(4), 5))
  . Who(Suspend, Number(Number(4), 6))
  tally Counted(Number(4))
  record Asked { who: Number(4), task: Suspend, outcome: Plain }
  .
  tally Cleared(Number(4))
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 30, count: 2 }, trouble: None })
  . Form(Second { topic: Task(Suspend), whom: Privileged, typed: Nothing })
  . Form(Second { topic: Task(Suspend), whom: Privileged, typed: Tens(0) })
  . Form(Second { topic: Task(Suspend), whom: Privileged, typed: Number(Number(1), 0) })
  . Form(Second { topic: Task(Suspend), whom: Privileged, typed: Number(Number(1), 1) })
  . Form(Second { topic: Task(Suspend), whom: Privileged, typed: Number(Number(1), 2) })
  . Form(Second { topic: Task(Suspend), whom: Privileged, typed: Number(Number(1), 3) })
  . Form(Second { topic: Task(Suspend), whom: Privileged, typed: Number(Number(1), 4) })
  . Form(Second { topic: Task(Suspend), whom: Privileged, typed: Number(Number(1), 5) })
  . Form(Second { topic: Task(Suspend), whom: Privileged, typed: Number(Number(1), 6) })
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Suspend, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Confirm { topic: Task(Suspend), gist: Holder(Number(30)), trouble: None })
  edit Changed { by: Some(People { first: Number(4), second: Some(Number(1)) }), change: Suspended(Number(30)) }
  Sound(Accepted)
  Form(Done { change: Suspended(Number(30)), from: None })
  wakes in 60000 ms
> keys ok ok 1 01 480317 ok 31 ok 4 1
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
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 31, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(31), role: Courier, opens: No, follows: Timetable(A) }, trouble: None })
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(31), Courier) }
  Sound(Accepted)
  tally Cleared(Number(31))
  Form(Done { change: Enrolled(Number(31), Courier), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 85780000 ms
> wait 90000
  86095 s later:
  tally Faded(Number(20))
  wakes in 82180000 ms
> keys 22 593018 ok
  . Entry(Tens(2))
  . Entry(Number(Number(22), 0))
  . Entry(Number(Number(22), 1))
  . Entry(Number(Number(22), 2))
  . Entry(Number(Number(22), 3))
  . Entry(Number(Number(22), 4))
  . Entry(Number(Number(22), 5))
  . Entry(Number(Number(22), 6))
  tally Counted(Number(22))
  record Released { people: People { first: Number(22), second: None }, outcome: Plain }
  tally Cleared(Number(22))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803982220))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok 1 01 480317 ok 32 ok 5 381546 ok 381546 ok ok
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
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 32, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
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
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  wakes in 60000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> keys 22 593018 ok
  . Entry(Tens(2))
  . Entry(Number(Number(22), 0))
  . Entry(Number(Number(22), 1))
  . Entry(Number(Number(22), 2))
  . Entry(Number(Number(22), 3))
  . Entry(Number(Number(22), 4))
  . Entry(Number(Number(22), 5))
  . Entry(Number(Number(22), 6))
  tally Counted(Number(22))
  record Released { people: People { first: Number(22), second: None }, outcome: Plain }
  tally Cleared(Number(22))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
