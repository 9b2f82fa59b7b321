declare module 'psychrolib' {
	const psychrolib: {
		SI: number;
		SetUnitSystem(system: number): void;
		GetTDewPointFromRelHum(dry_C: number, humidity: number): number;
		GetTDewPointFromTWetBulb(dry_C: number, wet_C: number, pressure_Pa: number): number;
		GetTWetBulbFromRelHum(dry_C: number, humidity: number, pressure_Pa: number): number;
	};
	export = psychrolib;
}
