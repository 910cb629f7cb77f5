# A change that would leave the lock stuck: refused with the bolt thrown, asked about drawn.
> lock that nobody opens
  wakes in 86400000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok 04 306518 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Who(WayOut, Nothing)
  . Who(WayOut, Tens(0))
  . Who(WayOut, Number(Number(1), 0))
  . Who(WayOut, Number(Number(1), 1))
  . Who(WayOut, Number(Number(1), 2))
  . Who(WayOut, Number(Number(1), 3))
  . Who(WayOut, Number(Number(1), 4))
  . Who(WayOut, Number(Number(1), 5))
  . Who(WayOut, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: WayOut, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Nothing })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Tens(0) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 0) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 1) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 2) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 3) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 4) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 5) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 6) })
  tally Counted(Number(4))
  record Asked { who: Number(4), task: WayOut, outcome: Plain }
  .
  tally Cleared(Number(4))
  Form(Confirm { topic: Task(WayOut), gist: Plain, trouble: None })
  record Changed { by: Some(People { first: Number(1), second: Some(Number(4)) }), change: WayOutBegun }
  tally WayOut(People { first: Number(1), second: Some(Number(4)) })
  Sound(Accepted)
  Form(Done { change: WayOutBegun, from: None })
  wakes in 60000 ms
> wait 259261
  60 s later:
  WayOut { hours: 72 }
  3600 s later:
  WayOut { hours: 71 }
  7200 s later:
  WayOut { hours: 70 }
  10800 s later:
  WayOut { hours: 69 }
  14400 s later:
  WayOut { hours: 68 }
  18000 s later:
  WayOut { hours: 67 }
  21600 s later:
  WayOut { hours: 66 }
  25200 s later:
  WayOut { hours: 65 }
  28800 s later:
  WayOut { hours: 64 }
  32400 s later:
  WayOut { hours: 63 }
  36000 s later:
  WayOut { hours: 62 }
  39600 s later:
  WayOut { hours: 61 }
  43200 s later:
  WayOut { hours: 60 }
  46800 s later:
  WayOut { hours: 59 }
  50400 s later:
  WayOut { hours: 58 }
  54000 s later:
  WayOut { hours: 57 }
  57600 s later:
  WayOut { hours: 56 }
  61200 s later:
  WayOut { hours: 55 }
  64800 s later:
  WayOut { hours: 54 }
  68400 s later:
  WayOut { hours: 53 }
  72000 s later:
  WayOut { hours: 52 }
  75600 s later:
  WayOut { hours: 51 }
  79200 s later:
  WayOut { hours: 50 }
  82800 s later:
  WayOut { hours: 49 }
  86400 s later:
  WayOut { hours: 48 }
  90000 s later:
  WayOut { hours: 47 }
  93600 s later:
  WayOut { hours: 46 }
  97200 s later:
  WayOut { hours: 45 }
  100800 s later:
  WayOut { hours: 44 }
  104400 s later:
  WayOut { hours: 43 }
  108000 s later:
  WayOut { hours: 42 }
  111600 s later:
  WayOut { hours: 41 }
  115200 s later:
  WayOut { hours: 40 }
  118800 s later:
  WayOut { hours: 39 }
  122400 s later:
  WayOut { hours: 38 }
  126000 s later:
  WayOut { hours: 37 }
  129600 s later:
  WayOut { hours: 36 }
  133200 s later:
  WayOut { hours: 35 }
  136800 s later:
  WayOut { hours: 34 }
  140400 s later:
  WayOut { hours: 33 }
  144000 s later:
  WayOut { hours: 32 }
  147600 s later:
  WayOut { hours: 31 }
  151200 s later:
  WayOut { hours: 30 }
  154800 s later:
  WayOut { hours: 29 }
  158400 s later:
  WayOut { hours: 28 }
  162000 s later:
  WayOut { hours: 27 }
  165600 s later:
  WayOut { hours: 26 }
  169200 s later:
  WayOut { hours: 25 }
  172800 s later:
  WayOut { hours: 24 }
  176400 s later:
  WayOut { hours: 23 }
  180000 s later:
  WayOut { hours: 22 }
  183600 s later:
  WayOut { hours: 21 }
  187200 s later:
  WayOut { hours: 20 }
  190800 s later:
  WayOut { hours: 19 }
  194400 s later:
  WayOut { hours: 18 }
  198000 s later:
  WayOut { hours: 17 }
  201600 s later:
  WayOut { hours: 16 }
  205200 s later:
  WayOut { hours: 15 }
  208800 s later:
  WayOut { hours: 14 }
  212400 s later:
  WayOut { hours: 13 }
  216000 s later:
  WayOut { hours: 12 }
  219600 s later:
  WayOut { hours: 11 }
  223200 s later:
  WayOut { hours: 10 }
  226800 s later:
  WayOut { hours: 9 }
  230400 s later:
  WayOut { hours: 8 }
  234000 s later:
  WayOut { hours: 7 }
  237600 s later:
  WayOut { hours: 6 }
  241200 s later:
  WayOut { hours: 5 }
  244800 s later:
  WayOut { hours: 4 }
  248400 s later:
  WayOut { hours: 3 }
  252000 s later:
  WayOut { hours: 2 }
  255600 s later:
  WayOut { hours: 1 }
  259200 s later:
  record Changed { by: None, change: WayOut }
  tally SettingUp
  SettingUp
  wakes in 86339000 ms
> keys ok ok 1 01 480317 ok 20 ok 3 9 842613 ok 842613 ok ok
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
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
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
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(20), role: Keyholder, opens: No, follows: Always }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(20), Keyholder) }
  Sound(Accepted)
  tally Cleared(Number(20))
  tally SetUp
  Form(Done { change: Enrolled(Number(20), Keyholder), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
> keys ok ok ok 3 01 480317 ok 20 ok 1 ok
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
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChooseTimetable), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: Some(NoWindow) })
  . Form(Ask { topic: Task(ChooseTimetable), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86217000 ms
> keys ok ok 2 01 480317 ok 20 ok ok
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
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Suspend), gist: Holder(Number(20)), trouble: None })
  . Form(Confirm { topic: Task(Suspend), gist: Stuck, trouble: None })
  wakes in 60000 ms
> keys ok ok
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Suspended(Number(20)) }
  Sound(Accepted)
  Form(Done { change: Suspended(Number(20)), from: None })
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86156000 ms
> keys ok ok 3 01 480317 ok 20 ok ok ok
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
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Restore), gist: Holder(Number(20)), trouble: None })
  Sound(Refused)
  Form(Confirm { topic: Task(Restore), gist: Holder(Number(20)), trouble: Some(NoStart) })
  Sound(Refused)
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86095000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok 04 306518 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Who(WayOut, Nothing)
  . Who(WayOut, Tens(0))
  . Who(WayOut, Number(Number(1), 0))
  . Who(WayOut, Number(Number(1), 1))
  . Who(WayOut, Number(Number(1), 2))
  . Who(WayOut, Number(Number(1), 3))
  . Who(WayOut, Number(Number(1), 4))
  . Who(WayOut, Number(Number(1), 5))
  . Who(WayOut, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: WayOut, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Nothing })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Tens(0) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 0) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 1) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 2) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 3) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 4) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 5) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 6) })
  tally Counted(Number(4))
  record Asked { who: Number(4), task: WayOut, outcome: Plain }
  .
  tally Cleared(Number(4))
  Form(Confirm { topic: Task(WayOut), gist: Plain, trouble: None })
  record Changed { by: Some(People { first: Number(1), second: Some(Number(4)) }), change: WayOutBegun }
  tally WayOut(People { first: Number(1), second: Some(Number(4)) })
  Sound(Accepted)
  Form(Done { change: WayOutBegun, from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  WayOut { hours: 72 }
  wakes in 3539000 ms
> keys ok ok 3 01 480317 ok 20 ok ok ok
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
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Restore), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Restore), gist: Holder(Number(20)), trouble: None })
  Sound(Refused)
  Form(Confirm { topic: Task(Restore), gist: Holder(Number(20)), trouble: Some(NoStart) })
  Sound(Refused)
  wakes in 60000 ms
> wait 61
  60 s later:
  WayOut { hours: 72 }
  wakes in 3478000 ms
> lock that nobody opens
  wakes in 86400000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok 04 306518 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Who(WayOut, Nothing)
  . Who(WayOut, Tens(0))
  . Who(WayOut, Number(Number(1), 0))
  . Who(WayOut, Number(Number(1), 1))
  . Who(WayOut, Number(Number(1), 2))
  . Who(WayOut, Number(Number(1), 3))
  . Who(WayOut, Number(Number(1), 4))
  . Who(WayOut, Number(Number(1), 5))
  . Who(WayOut, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: WayOut, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Nothing })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Tens(0) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 0) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 1) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 2) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 3) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 4) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 5) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 6) })
  tally Counted(Number(4))
  record Asked { who: Number(4), task: WayOut, outcome: Plain }
  .
  tally Cleared(Number(4))
  Form(Confirm { topic: Task(WayOut), gist: Plain, trouble: None })
  record Changed { by: Some(People { first: Number(1), second: Some(Number(4)) }), change: WayOutBegun }
  tally WayOut(People { first: Number(1), second: Some(Number(4)) })
  Sound(Accepted)
  Form(Done { change: WayOutBegun, from: None })
  wakes in 60000 ms
> wait 259261
  60 s later:
  WayOut { hours: 72 }
  3600 s later:
  WayOut { hours: 71 }
  7200 s later:
  WayOut { hours: 70 }
  10800 s later:
  WayOut { hours: 69 }
  14400 s later:
  WayOut { hours: 68 }
  18000 s later:
  WayOut { hours: 67 }
  21600 s later:
  WayOut { hours: 66 }
  25200 s later:
  WayOut { hours: 65 }
  28800 s later:
  WayOut { hours: 64 }
  32400 s later:
  WayOut { hours: 63 }
  36000 s later:
  WayOut { hours: 62 }
  39600 s later:
  WayOut { hours: 61 }
  43200 s later:
  WayOut { hours: 60 }
  46800 s later:
  WayOut { hours: 59 }
  50400 s later:
  WayOut { hours: 58 }
  54000 s later:
  WayOut { hours: 57 }
  57600 s later:
  WayOut { hours: 56 }
  61200 s later:
  WayOut { hours: 55 }
  64800 s later:
  WayOut { hours: 54 }
  68400 s later:
  WayOut { hours: 53 }
  72000 s later:
  WayOut { hours: 52 }
  75600 s later:
  WayOut { hours: 51 }
  79200 s later:
  WayOut { hours: 50 }
  82800 s later:
  WayOut { hours: 49 }
  86400 s later:
  WayOut { hours: 48 }
  90000 s later:
  WayOut { hours: 47 }
  93600 s later:
  WayOut { hours: 46 }
  97200 s later:
  WayOut { hours: 45 }
  100800 s later:
  WayOut { hours: 44 }
  104400 s later:
  WayOut { hours: 43 }
  108000 s later:
  WayOut { hours: 42 }
  111600 s later:
  WayOut { hours: 41 }
  115200 s later:
  WayOut { hours: 40 }
  118800 s later:
  WayOut { hours: 39 }
  122400 s later:
  WayOut { hours: 38 }
  126000 s later:
  WayOut { hours: 37 }
  129600 s later:
  WayOut { hours: 36 }
  133200 s later:
  WayOut { hours: 35 }
  136800 s later:
  WayOut { hours: 34 }
  140400 s later:
  WayOut { hours: 33 }
  144000 s later:
  WayOut { hours: 32 }
  147600 s later:
  WayOut { hours: 31 }
  151200 s later:
  WayOut { hours: 30 }
  154800 s later:
  WayOut { hours: 29 }
  158400 s later:
  WayOut { hours: 28 }
  162000 s later:
  WayOut { hours: 27 }
  165600 s later:
  WayOut { hours: 26 }
  169200 s later:
  WayOut { hours: 25 }
  172800 s later:
  WayOut { hours: 24 }
  176400 s later:
  WayOut { hours: 23 }
  180000 s later:
  WayOut { hours: 22 }
  183600 s later:
  WayOut { hours: 21 }
  187200 s later:
  WayOut { hours: 20 }
  190800 s later:
  WayOut { hours: 19 }
  194400 s later:
  WayOut { hours: 18 }
  198000 s later:
  WayOut { hours: 17 }
  201600 s later:
  WayOut { hours: 16 }
  205200 s later:
  WayOut { hours: 15 }
  208800 s later:
  WayOut { hours: 14 }
  212400 s later:
  WayOut { hours: 13 }
  216000 s later:
  WayOut { hours: 12 }
  219600 s later:
  WayOut { hours: 11 }
  223200 s later:
  WayOut { hours: 10 }
  226800 s later:
  WayOut { hours: 9 }
  230400 s later:
  WayOut { hours: 8 }
  234000 s later:
  WayOut { hours: 7 }
  237600 s later:
  WayOut { hours: 6 }
  241200 s later:
  WayOut { hours: 5 }
  244800 s later:
  WayOut { hours: 4 }
  248400 s later:
  WayOut { hours: 3 }
  252000 s later:
  WayOut { hours: 2 }
  255600 s later:
  WayOut { hours: 1 }
  259200 s later:
  record Changed { by: None, change: WayOut }
  tally SettingUp
  SettingUp
  wakes in 86339000 ms
> keys ok ok 1 01 480317 ok 20 ok 3 9 842613 ok 842613 ok ok
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
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
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
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(20), role: Keyholder, opens: No, follows: Always }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(20), Keyholder) }
  Sound(Accepted)
  tally Cleared(Number(20))
  tally SetUp
  Form(Done { change: Enrolled(Number(20), Keyholder), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
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
  record Released { people: People { first: Number(20), second: None }, outcome: Plain }
  tally Cleared(Number(20))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1804150922))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok ok 3 01 480317 ok 20 ok 1 ok
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
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Confirm { topic: Task(ChooseTimetable), gist: Follows(Number(20), Timetable(A)), trouble: None })
  . Form(Confirm { topic: Task(ChooseTimetable), gist: Stuck, trouble: None })
  wakes in 60000 ms
> keys ok
  edit Changed { by: Some(People { first: Number(1), second: None }), change: TimetableChosen(Number(20), Timetable(A)) }
  Sound(Warning)
  record LeftOpen
  Form(Done { change: TimetableChosen(Number(20), Timetable(A)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: Yes }
  wakes in 86217000 ms
> keys ok ok ok 1 01 480317 ok 20 ok ok ok
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
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Remove), gist: Holder(Number(20)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Removed(Number(20)) }
  Sound(Accepted)
  Form(Done { change: Removed(Number(20)), from: None })
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Open { late: Yes }
  wakes in 86156000 ms
> keys ok ok ok ok ok ok 1 01 480317 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Who(Reset, Nothing)
  . Who(Reset, Tens(0))
  . Who(Reset, Number(Number(1), 0))
  . Who(Reset, Number(Number(1), 1))
  . Who(Reset, Number(Number(1), 2))
  . Who(Reset, Number(Number(1), 3))
  . Who(Reset, Number(Number(1), 4))
  . Who(Reset, Number(Number(1), 5))
  . Who(Reset, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Reset, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Confirm { topic: Task(Reset), gist: Plain, trouble: Some(SwitchOn) })
  Sound(Refused)
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: Yes }
  wakes in 86095000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(183) }
  Secured { supply: Good, clock: Valid }
  wakes in 86095000 ms
