/**
 * Class letters of objects: IEC 81346-2:2019; the examples are our own.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface Iec81346Row {
  readonly letter: string;
  readonly class: string;
  readonly examples: string;
  readonly prov: Prov;
}

export const iec81346Table: Table<Iec81346Row> = {
  title: 'Class letters',
  source: 'IEC 81346-2:2019',
  rows: [
    { letter: 'A', class: 'two or more purposes, none of them the main one', examples: 'distribution unit with several functions', prov: 'seen' },
    { letter: 'B', class: 'picking up a physical quantity and turning it into a signal', examples: 'current shunt, temperature sensor, tank sender', prov: 'seen' },
    { letter: 'C', class: 'storing energy, information or material', examples: 'capacitor; a rechargeable battery that only stores', prov: 'seen' },
    { letter: 'E', class: 'giving light, heat or radiation', examples: 'lamp, heater', prov: 'seen' },
    { letter: 'F', class: 'protecting directly against a dangerous or unwanted state', examples: 'fuse, surge arrester, thermal cut-out, protective breaker', prov: 'seen' },
    { letter: 'G', class: 'starting a flow of energy', examples: 'battery, alternator, solar module, power supply', prov: 'seen' },
    { letter: 'K', class: 'processing signals', examples: 'relay used for logic, controller, timer', prov: 'seen' },
    { letter: 'M', class: 'giving mechanical energy for a drive', examples: 'pump motor, fan motor', prov: 'seen' },
    { letter: 'P', class: 'presenting information', examples: 'meter, display, indicator lamp, buzzer', prov: 'seen' },
    { letter: 'Q', class: 'switching or varying a flow of energy on command', examples: 'battery switch, contactor, power relay, circuit breaker as switch', prov: 'seen' },
    { letter: 'R', class: 'limiting or steadying a flow', examples: 'resistor, diode, inductor', prov: 'seen' },
    { letter: 'S', class: 'turning a hand movement into a signal', examples: 'push button, selector, rocker for control', prov: 'seen' },
    { letter: 'T', class: 'converting energy of the same kind', examples: 'transformer, inverter, charger, DC-DC converter', prov: 'seen' },
    { letter: 'U', class: 'holding an object in place', examples: 'rack, bracket, enclosure', prov: 'seen' },
    { letter: 'V', class: 'treating material', examples: 'filter, fan as treatment', prov: 'seen' },
    { letter: 'W', class: 'guiding energy or signals from one place to another', examples: 'cable, wire, busbar', prov: 'seen' },
    { letter: 'X', class: 'connecting objects', examples: 'terminal block, plug, socket, stud', prov: 'seen' },
  ],
};
