/** Field of the forms for the name an error carries; what belongs to no field is said above the form. */
export function fieldOfFault(named: string): string {
  return FIELDS[named] ?? '';
}

const FIELDS: Readonly<Record<string, string>> = {
  'day of the visit': 'plannedOn',
  date: 'plannedOn',
  'arrival from': 'fromTime',
  'arrival to': 'toTime',
  arrival: 'fromTime',
  technician: 'technicianId',
  reason: 'why',
  note: 'note',
};
