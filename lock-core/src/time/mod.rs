//! Moments, dates and the zone rule.
