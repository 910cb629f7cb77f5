//! The seven days of a week.

use serde::{Deserialize, Serialize};

/// A day of the week; weeks start on Monday (ISO 8601).
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Serialize, Deserialize)]
pub enum Weekday {
    /// Monday.
    Mon,
    /// Tuesday.
    Tue,
    /// Wednesday.
    Wed,
    /// Thursday.
    Thu,
    /// Friday.
    Fri,
    /// Saturday.
    Sat,
    /// Sunday.
    Sun,
}

impl Weekday {
    /// The whole week in order.
    pub const ALL: [Self; 7] =
        [Self::Mon, Self::Tue, Self::Wed, Self::Thu, Self::Fri, Self::Sat, Self::Sun];

    /// 0 for Monday to 6 for Sunday.
    #[must_use]
    pub const fn index(self) -> usize {
        match self {
            Self::Mon => 0,
            Self::Tue => 1,
            Self::Wed => 2,
            Self::Thu => 3,
            Self::Fri => 4,
            Self::Sat => 5,
            Self::Sun => 6,
        }
    }

    /// The day with this index, or `None` above 6.
    #[must_use]
    pub fn from_index(index: usize) -> Option<Self> {
        Self::ALL.get(index).copied()
    }

    /// The day after, Monday after Sunday.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::Mon => Self::Tue,
            Self::Tue => Self::Wed,
            Self::Wed => Self::Thu,
            Self::Thu => Self::Fri,
            Self::Fri => Self::Sat,
            Self::Sat => Self::Sun,
            Self::Sun => Self::Mon,
        }
    }

    /// The day before, Sunday before Monday.
    #[must_use]
    pub const fn prev(self) -> Self {
        match self {
            Self::Mon => Self::Sun,
            Self::Tue => Self::Mon,
            Self::Wed => Self::Tue,
            Self::Thu => Self::Wed,
            Self::Fri => Self::Thu,
            Self::Sat => Self::Fri,
            Self::Sun => Self::Sat,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn index_and_neighbours_agree() {
        for (index, day) in Weekday::ALL.into_iter().enumerate() {
            assert_eq!(day.index(), index);
            assert_eq!(Weekday::from_index(index), Some(day));
            assert_eq!(day.next().index(), (index + 1) % 7);
            assert_eq!(day.next().prev(), day);
        }
        assert_eq!(Weekday::from_index(7), None);
    }
}
