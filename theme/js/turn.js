// stub until the markup is known
export function bindTurn() {}
